/** What could not be printed as asked, as it is told: where in the text, what, why, and what would be right. Made-up slips in the sample library. */
import { beforeAll, describe, expect, test } from 'vitest';
import { checkLibrary, positionAt } from '../../procedures-schema/index.ts';
import {
  type ComposeInput,
  guideBook,
  type Image,
  keptRevisions,
  type PrintNote,
  printBook,
  printNotes,
  printSheets,
  procedureBook,
  shortProcedure,
} from '../../publishing/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
beforeAll(async () => {
  it = await sample();
});

/** The notes of printing OM-3140 after a change of its text, each with its line as it reads. */
function told(
  change: (text: string) => string,
  more: {
    readonly figures?: (figures: ComposeInput['figures']) => ComposeInput['figures'];
    readonly make?: typeof procedureBook;
    readonly paper?: 'a5';
  } = {},
): readonly (PrintNote & { readonly line: string })[] {
  const texts = it.texts.map((file) => (file.path.includes('OM-3140') ? { ...file, text: change(file.text) } : file));
  const library = checkLibrary(texts, it.paths).facts;
  const facts = library.procedures.find(({ head }) => head.id === 'OM-3140') as (typeof library.procedures)[number];
  const input = { ...it.input, library, figures: more.figures?.(it.input.figures) ?? it.input.figures };
  const { notes } = printBook((more.make ?? procedureBook)(facts, input, more.paper ? { paper: more.paper } : {}), it.fonts);
  const { source } = facts.tree;
  return printNotes(notes, library).map((note) => {
    const line = note.span === undefined ? '' : (source.text.split('\n')[positionAt(source, note.span.start).line - 1] ?? '');
    return { ...note, line };
  });
}

describe('a note of the printing', () => {
  test('a step whose notice is taller than a page is told with its place, why, and what would be right', () => {
    const long = (text: string): string =>
      text.replace(/(:::warning\n)/, (open) => open + 'Oil can squirt out. Keep the safety glasses on and stand aside.\n\n'.repeat(60));
    const [note, ...others] = told(long);
    expect(others).toEqual([]);
    expect(note?.kind).toBe('group-too-tall');
    expect(note?.file).toBe('procedures/OM-3140-lip-cylinder.md');
    expect(note?.line).toMatch(/^10\. Loosen the \[hose nut\]/);
    expect(note?.message).toMatch(/^Page \d+: one page has no room for step 10 and its notices; it is parted here\.$/);
    expect(note?.why).toContain('overlooked');
    expect(note?.expected).toContain('split');
  });

  test('a figure that is missing is told where the text shows it', () => {
    const [note] = told((text) => text, {
      figures: (figures) => new Map([...figures].filter(([path]) => !path.includes('lip-cylinder-place'))),
    });
    expect(note?.kind).toBe('bad-image');
    expect(note?.line).toContain('figures/lip-cylinder-place.svg');
  });

  test('print in a figure that comes out too small, too', () => {
    const tiny: Image = {
      kind: 'svg',
      source:
        '<svg xmlns="http://www.w3.org/2000/svg" width="2000" height="400" viewBox="0 0 2000 400"><text x="9" y="90" font-size="9">Lip</text></svg>',
    };
    const [note] = told((text) => text, {
      figures: (figures) => new Map([...figures].map(([path, image]) => [path, path.includes('lip-cylinder-place') ? tiny : image])),
    });
    expect(note?.kind).toBe('small-print');
    expect(note?.line).toContain('figures/lip-cylinder-place.svg');
  });

  test('a character that no font has is told where it stands first', () => {
    const [note] = told((text) => text.replace('Hold the [raise button]', 'Hold \u{E123} the [raise button]'));
    expect(note?.kind).toBe('missing-glyph');
    expect(note?.line).toContain('\u{E123}');
  });

  test('a checklist of more than two sheets is told with its pages here, on A4 and folded', () => {
    const [note] = told((text) => text, { make: shortProcedure, paper: 'a5' });
    expect(note?.kind).toBe('many-leaves');
    expect(note?.message).toBe(
      'The checklist of OM-3140 takes 5 pages on A5, more than two sheets. On A4 it takes 4. Printed as a booklet it is two sheets, folded.',
    );
    expect(note?.file).toBe('procedures/OM-3140-lip-cylinder.md');
    expect(told((text) => text, { make: shortProcedure })).toEqual([]);
    const facts = it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as (typeof it.report.facts.procedures)[number];
    const book = shortProcedure(facts, it.input, { paper: 'a5', binding: 'left' });
    const folded = printSheets(book, it.fonts, { kind: 'booklet', sheet: 'a4' });
    expect([folded.pages, folded.sides, folded.notes]).toEqual([5, 4, []]);
    expect(printSheets(book, it.fonts, { kind: 'two-up', sheet: 'a4' }).notes.map(({ kind }) => kind)).toEqual(['many-leaves']);
  });
});

describe('an issue', () => {
  const input = (change: (text: string) => string): ComposeInput => {
    const texts = it.texts.map((file) => (file.path.includes('OM-3140') ? { ...file, text: change(file.text) } : file));
    return { ...it.input, earlier: checkLibrary(texts, it.paths).facts };
  };
  const kept = (change: (text: string) => string) => {
    const own = input(change);
    const guide = it.report.facts.guides[0] as Parameters<typeof guideBook>[0];
    return keptRevisions(guideBook(guide, own), own);
  };

  test('in which a procedure says something else under the same revision is told', () => {
    const [note, ...others] = kept((text) => text.replace('Wait 10 min', 'Wait 8 min'));
    expect(others).toEqual([]);
    expect(note?.message).toBe('OM-3140 is not what it was in the issue before, and both are revision C.');
    expect(note?.file).toBe('procedures/OM-3140-lip-cylinder.md');
  });

  test('under another revision, or with the same words, has nothing to tell', () => {
    expect(kept((text) => text.replace('Wait 10 min', 'Wait 8 min').replace('revision: "C"', 'revision: "B"'))).toEqual([]);
    expect(kept((text) => text)).toEqual([]);
  });
});
