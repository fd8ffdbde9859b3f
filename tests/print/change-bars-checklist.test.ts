/** Bars on paper checklists, by the rule of the guides: beside what is not so in the issue before, a stroke where something is gone. Changes of the sample library. */
import { beforeAll, describe, expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { type ComposeInput, keptRevisions, procedureBook, shortGuide, shortProcedure } from '../../publishing/index.ts';
import { drawBook, layoutBook, newFontSource, type PlacedBook, type Shaper } from '../../publishing/layout/index.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
let shaper: Shaper;
beforeAll(async () => {
  it = await sample();
  shaper = newFontSource(it.fonts).shaper;
});

const ID = 'OM-3140';

/** The library of now after a change of one procedure, with that of before. */
function changed(change: (text: string) => string): ComposeInput {
  const texts = it.texts.map((file) => (file.path.includes(ID) ? { ...file, text: change(file.text) } : file));
  expect(texts).not.toEqual(it.texts);
  return { ...it.input, library: checkLibrary(texts, it.paths).facts, earlier: it.input.library };
}

const bookOf = (input: ComposeInput, make: typeof shortProcedure = shortProcedure) =>
  make(input.library.procedures.find(({ head }) => head.id === ID) as Parameters<typeof shortProcedure>[0], input, { paper: 'a4' });

/** All that is marked: "|" for a bar, "^" and "v" for a stroke at its head or foot. Labels, chips and page numbers as printed. */
function marks({ pages }: PlacedBook): string[] {
  return pages.flatMap(({ slabs }) =>
    slabs.flatMap(({ slab }) => {
      const kinds = new Set(slab.decor.map((decor) => (decor.kind === 'gone' ? decor.at : decor.kind)));
      const signs = `${kinds.has('head') ? '^' : ''}${kinds.has('foot') ? 'v' : ''}${kinds.has('change') ? '|' : ''}`;
      const said = slab.items.flatMap((item) =>
        item.kind === 'line'
          ? [item.line.parts.map((part) => (part.kind === 'page' ? '' : part.shaped.map(({ text }) => text).join(''))).join('')]
          : [],
      );
      return signs === '' ? [] : [`${signs}${said.join(' ').replace(/\s+/g, ' ').trim()}`];
    }),
  );
}

const marked = (change: (text: string) => string): string[] => marks(layoutBook(bookOf(changed(change)), shaper));

describe('on a paper checklist a bar', () => {
  test('stands nowhere where nothing is another, and the pages are those without', () => {
    const same = bookOf({ ...it.input, earlier: it.input.library });
    expect(marks(layoutBook(same, shaper))).toEqual([]);
    expect(drawBook(layoutBook(same, shaper)).pages).toEqual(drawBook(layoutBook(bookOf(it.input), shaper)).pages);
  });

  test('stands beside the one line in which a word is another', () => {
    expect(marked((text) => text.replace('Wait 10 min', 'Wait 8 min'))).toEqual(['|8 Wait 8 min by the stopwatch.']);
  });

  test('stands beside a line that is new, and not beside those that only moved down', () => {
    const now = marked((text) => text.replace('4. Hold the [lip button]', '4. Sweep the dock floor.\n5. Hold the [lip button]'));
    expect(now).toEqual(['|4 Sweep the dock floor.']);
  });

  test('is a stroke where a line went', () => {
    expect(marked((text) => text.replace('8. Wait 10 min by the [stopwatch].\n', ''))).toEqual([
      expect.stringMatching(/^\^8 Read the lip drift from the dock\. DL-20 0 to 4 mm/),
    ]);
  });

  test('stands beside the limits that are others, not beside the line that reads them', () => {
    const now = marked((text) => text.replace('| DL-25 | 0 mm | 5 mm [0.19 in] |', '| DL-25 | 0 mm | 4.5 mm [0.17 in] |'));
    expect(now).toHaveLength(1);
    expect(now[0]).toMatch(/^\|DL-20.*0 to 4\.5 mm.*Before mm After mm$/);
  });

  test('stands beside a notice with another word, a stroke where a notice went', () => {
    const [bar, ...more] = marked((text) => text.replace('Keep the [safety glasses] on', 'Put the [safety glasses] on'));
    expect(more).toEqual([]);
    expect(bar).toMatch(/^\|WARNING .*Put the safety glasses on/);
    const gone = marked((text) => text.replace(/ *:::warning\n[\s\S]*?:::\n\n?/, ''));
    expect(gone).toHaveLength(1);
    expect(gone[0]).toMatch(/^\^10 Loosen the hose nut/);
  });

  test('stands beside a heading with another name, and the lines that lead there', () => {
    const now = marked((text) => text.replaceAll('Put back into use', 'Back into use'));
    expect(now.filter((line) => line === '|Back into use' || line === '|Back into use Initials')).toHaveLength(1);
    for (const line of now) expect(line).toContain('ack into use');
  });

  test('stands beside what is needed, too', () => {
    const now = marked((text) =>
      text.replace('  - hammer\n', '  - hammer\n  - stopwatch\n').replace('  - stopwatch\n  - hook', '  - hook'),
    );
    expect(now.length).toBeGreaterThan(0);
    for (const line of now) expect(line).not.toMatch(/^\|\d/);
  });

  test('stands beside a line that has to be initialled now', () => {
    const before = (text: string): string =>
      text.replace('Switch off the [main isolator]. The valves', 'Look at the [main isolator]. The valves');
    const then = { ...changed(before), earlier: it.input.library };
    const now: ComposeInput = { ...it.input, earlier: then.library };
    expect(marks(layoutBook(bookOf(now), shaper))).toContain('|6 Switch off the main isolator.');
  });
});

describe('with an issue before', () => {
  const words = (text: string): string => text.replace('Wait 10 min', 'Wait 8 min');

  test('the leaves of a guide have the same bars as the leaf alone', () => {
    const input = changed(words);
    const guide = input.library.guides[0] as Parameters<typeof shortGuide>[0];
    expect(marks(layoutBook(shortGuide(guide, input), shaper))).toEqual(['|8 Wait 8 min by the stopwatch.']);
  });

  test('a procedure that is new has none, as in a guide', () => {
    const earlier = { ...it.input.library, procedures: it.input.library.procedures.filter(({ head }) => head.id !== ID) };
    expect(marks(layoutBook(bookOf({ ...it.input, earlier }), shaper))).toEqual([]);
  });

  test('a revision that was kept is told of a checklist as of the full text', () => {
    const input = changed(words);
    const told = keptRevisions(bookOf(input), input).map(({ message }) => message);
    expect(told).toEqual(keptRevisions(bookOf(input, procedureBook), input).map(({ message }) => message));
    expect(told).toEqual(['OM-3140 is not what it was in the issue before, and both are revision C.']);
  });
});
