/** Boxes to sign off at the end of a bound procedure: on paper, and as fields with names and words that tell one from another. */
import { type PDFDict, PDFDocument, PDFHexString, PDFName, PDFString } from 'pdf-lib';
import { beforeAll, describe, expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { guideBook, printBook, procedureBook } from '../../publishing/index.ts';
import { layoutBook, newFontSource } from '../../publishing/layout/index.ts';
import { points } from '../support/pdf-ua.ts';
import { RawPdf } from '../support/raw-pdf.ts';
import { type Sample, sample } from '../support/sample.ts';

let it: Sample;
beforeAll(async () => {
  it = await sample();
});
const facts = (id: string) => it.report.facts.procedures.find(({ head }) => head.id === id) as (typeof it.report.facts.procedures)[number];

/** Names of the fields that the sign-off adds, each with its words. */
async function added(bytes: Uint8Array): Promise<Map<string, string>> {
  const fields = (await PDFDocument.load(bytes)).getForm().getFields();
  const said = (dict: PDFDict): string => {
    const words = dict.lookup(PDFName.of('TU'));
    return words instanceof PDFHexString || words instanceof PDFString ? words.decodeText() : '';
  };
  return new Map(
    fields.flatMap((field) => (field.getName().includes('When all is done') ? [[field.getName(), said(field.acroField.dict)]] : [])),
  );
}

describe('at the end of a bound procedure', () => {
  test('nothing stands there unless it is asked for', async () => {
    const { bytes } = printBook(procedureBook(facts('OM-3140'), it.input), it.fonts, { fillable: true });
    expect((await added(bytes)).size).toBe(0);
  });

  test('they stand there where the house asks for them, and what the printing says goes before', async () => {
    const house = (line: string) => {
      const texts = it.texts.map((file) => (file.path === 'library.yaml' ? { ...file, text: `${file.text}${line}` } : file));
      const { facts: library, findings } = checkLibrary(texts, it.paths);
      return { library, refused: findings.filter(({ file }) => file === 'library.yaml').map(({ message }) => message) };
    };
    const count = async (line: string, choice: { readonly signOff?: boolean } = {}): Promise<number> => {
      const { library, refused } = house(line);
      expect(refused).toEqual([]);
      const own = library.procedures.find(({ head }) => head.id === 'OM-3140') as ReturnType<typeof facts>;
      const { bytes } = printBook(procedureBook(own, { ...it.input, library }, choice), it.fonts, { fillable: true });
      return (await added(bytes)).size;
    };
    expect(await count('sign-off: yes\n')).toBe(6);
    expect(await count('sign-off: yes\n', { signOff: false })).toBe(0);
    expect(await count('sign-off: no\n')).toBe(0);
    expect(await count('sign-off: no\n', { signOff: true })).toBe(6);
    expect(house('sign-off: perhaps\n').refused).toEqual([expect.stringContaining('"perhaps"')]);
  });

  test('machine, date, name and initials, and what was found and left of all that is brought within its limits', async () => {
    const { bytes } = printBook(procedureBook(facts('OM-3140'), it.input, { signOff: true }), it.fonts, { fillable: true });
    expect([...(await added(bytes))]).toEqual(
      ['Serial number', 'Date', 'lip drift, as found (mm)', 'lip drift, as left (mm)', 'Work done by (name)', 'Initials'].map((label) => [
        `OM-3140, When all is done, ${label}`,
        `OM-3140, ${label}`,
      ]),
    );
  });

  test('a judgement has an answer to tick for either', async () => {
    const { bytes } = printBook(procedureBook(facts('OM-2130'), it.input, { signOff: true }), it.fonts, { fillable: true });
    const names = [...(await added(bytes)).keys()];
    expect(names.filter((name) => /as (found|left), (Passes|Fails)$/.test(name)).length).toBeGreaterThan(0);
    expect(names.filter((name) => /as found, Passes$/.test(name))).toHaveLength(
      names.filter((name) => /as left, Fails$/.test(name)).length,
    );
  });

  test('in a guide each procedure has its own; no name stands twice, and no point of PDF/UA is hurt', async () => {
    const guide = it.report.facts.guides[0] as Parameters<typeof guideBook>[0];
    const { bytes } = printBook(guideBook(guide, it.input, { signOff: true }), it.fonts, { fillable: true });
    const names = (await PDFDocument.load(bytes))
      .getForm()
      .getFields()
      .map((field) => field.getName());
    expect(new Set(names).size).toBe(names.length);
    expect(names.filter((name) => name.endsWith(', When all is done, Serial number'))).toHaveLength(6);
    const raw = await RawPdf.of(bytes);
    for (const point of points) expect(point.wrong(raw).slice(0, 5), point.says).toEqual([]);
  });

  test('the boxes stand together on one page, below their heading, on small paper too', () => {
    const { shaper } = newFontSource(it.fonts);
    for (const { head } of it.report.facts.procedures) {
      const placed = layoutBook(procedureBook(facts(head.id), it.input, { signOff: true, paper: 'a5' }), shaper);
      const at = placed.anchors.get(`doc ${head.id} sign`) as number;
      const own = placed.pages.map(({ slabs }) => slabs.filter(({ slab }) => slab.group === 'a grid of boxes').length);
      expect(own[at], head.id).toBeGreaterThan(1);
      expect(
        own.filter((count) => count > 0),
        head.id,
      ).toHaveLength(1);
    }
  });

  test('they take no leaf of their own: what is to be written down stands with them', () => {
    const { shaper } = newFontSource(it.fonts);
    for (const guide of it.report.facts.guides) {
      const placed = layoutBook(guideBook(guide, it.input, { signOff: true }), shaper);
      placed.pages.forEach(({ slabs }, page) => {
        const at = slabs.findIndex(({ slab }) => slab.group === 'a grid of boxes');
        // The heading stands above them, and above that something else.
        if (at >= 0) expect(at, `page ${page + 1}`).toBeGreaterThan(1);
      });
    }
  });
});
