/** The fillable edition, filled in by another program's hands (pdf-lib's form functions) and shown by poppler; and what travels inside a file. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument } from 'pdf-lib';
import * as pdfjs from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOf } from '../../procedures-schema/schemas/index.ts';
import { attachmentsOf, guideBook, printBook, procedureBook, shortProcedure } from '../../publishing/index.ts';
import { type Sample, sample } from '../support/sample.ts';
import { hasTool } from '../support/tools.ts';

let it: Sample;
const folder = mkdtempSync(join(tmpdir(), 'handsclear-form-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeAll(async () => {
  it = await sample();
});
const facts = () => it.report.facts.procedures.find(({ head }) => head.id === 'OM-3140') as (typeof it.report.facts.procedures)[number];
const run = (program: string, ...words: string[]): string => {
  const { stdout, stderr, status } = spawnSync(program, words, { encoding: 'utf8', maxBuffer: 1e9 });
  expect([status, stderr.split('\n').filter((line) => /error|warning/i.test(line))]).toEqual([0, []]);
  return stdout;
};
const keep = (name: string, bytes: Uint8Array): string => {
  const file = join(folder, `${name}.pdf`);
  writeFileSync(file, bytes);
  return file;
};

type Reader = pdfjs.PDFDocumentProxy;
interface Field {
  readonly id: string;
  readonly value: unknown;
}
/** Does something with the file while pdf.js has it open; `fields` gives the widgets of a name. */
async function withPdfJs<T>(
  bytes: Uint8Array,
  what: (document: Reader, fields: (name: string) => readonly Field[]) => Promise<T>,
): Promise<T> {
  const task = pdfjs.getDocument({ data: bytes.slice(), useSystemFonts: false, verbosity: 0 });
  const document = await task.promise;
  const found = new Map<string, Field[]>();
  for (let number = 1; number <= document.numPages; number += 1)
    for (const { id, fieldName, fieldValue } of await (await document.getPage(number)).getAnnotations())
      if (fieldName) found.set(fieldName, [...(found.get(fieldName) ?? []), { id, value: fieldValue }]);
  const done = await what(document, (name) => {
    const own = found.get(name);
    if (own === undefined) throw new Error(`no field ${name}`);
    return own;
  });
  await task.destroy();
  return done;
}

describe('the paper checklist as a form', () => {
  test('has a field for every box: ticks, values, initials, sign-off', async () => {
    const { bytes } = printBook(shortProcedure(facts(), it.input), it.fonts, { fillable: true });
    const form = (await PDFDocument.load(bytes)).getForm();
    const names = form.getFields().map((field) => field.getName());
    expect(new Set(names).size).toBe(names.length);
    for (const name of [
      'OM-3140, Serial number',
      'OM-3140, Model, DL-25',
      'OM-3140, Check the drift, Check the drift 9, lip drift, Before',
      'OM-3140, Check the drift, Check the drift 9, lip drift, After',
      'OM-3140, Renew the seal, Renew the seal 2, Initials',
      'OM-3140, Renew the seal, 18, bore finish, Passes',
      'OM-3140, When all is done, Work done by (name)',
    ])
      expect(names).toContain(name);
    expect(names.length).toBeGreaterThan(100);
  });

  test.skipIf(!hasTool('pdftotext'))('filled in, it shows what was typed, on every leaf where the field stands again', async () => {
    const { bytes, pages } = printBook(shortProcedure(facts(), it.input), it.fonts, { fillable: true });
    const document = await PDFDocument.load(bytes);
    const form = document.getForm();
    form.getTextField('OM-3140, Serial number').setText('SN-4711-é');
    form.getTextField('OM-3140, Check the drift, Check the drift 9, lip drift, Before').setText('6.5');
    form.getCheckBox('OM-3140, Check the drift, Check the drift 1').check();
    const file = keep('filled', await document.save());
    const text = run('pdftotext', '-layout', file, '-');
    expect(text.split('SN-4711-é').length - 1).toBe(pages);
    expect(text).toContain('6.5');
    const again = (await PDFDocument.load(await document.save())).getForm();
    expect(again.getCheckBox('OM-3140, Check the drift, Check the drift 1').isChecked()).toBe(true);
  });

  test('filled in by pdf.js, what was typed is read back by pdf-lib, and by pdf.js again', async () => {
    const wanted = {
      'OM-3140, Serial number': 'SN-4711-é',
      'OM-3140, Check the drift, Check the drift 9, lip drift, Before': '6.5',
      'OM-3140, Check the drift, Check the drift 1': true,
    };
    const { bytes } = printBook(shortProcedure(facts(), it.input), it.fonts, { fillable: true });
    const filled = await withPdfJs(bytes, async (document, fields) => {
      for (const [name, value] of Object.entries(wanted))
        for (const { id } of fields(name)) document.annotationStorage.setValue(id, { value });
      return document.saveDocument();
    });
    const form = (await PDFDocument.load(filled)).getForm();
    expect(form.getTextField('OM-3140, Serial number').getText()).toBe('SN-4711-é');
    expect(form.getTextField('OM-3140, Check the drift, Check the drift 9, lip drift, Before').getText()).toBe('6.5');
    expect(form.getTextField('OM-3140, Check the drift, Check the drift 9, lip drift, After').getText() ?? '').toBe('');
    expect(form.getCheckBox('OM-3140, Check the drift, Check the drift 1').isChecked()).toBe(true);
    expect(form.getCheckBox('OM-3140, Check the drift, Check the drift 2').isChecked()).toBe(false);
    await withPdfJs(filled, async (_, fields) => {
      for (const { value } of fields('OM-3140, Serial number')) expect(value).toBe('SN-4711-é');
      expect(fields('OM-3140, Check the drift, Check the drift 1').map(({ value }) => value)).toEqual(['Yes']);
    });
  });

  test.skipIf(!hasTool('pdftoppm'))('unfilled, it looks like the paper one', () => {
    const book = shortProcedure(facts(), it.input);
    const picture = (name: string, fillable: boolean): Buffer => {
      const file = keep(name, printBook(book, it.fonts, { fillable }).bytes);
      return spawnSync('pdftoppm', ['-r', '40', '-f', '2', '-l', '2', '-gray', file], { maxBuffer: 1e9 }).stdout;
    };
    expect(Buffer.compare(picture('paper', false), picture('form', true))).toBe(0);
  });

  test('a bound procedure has a field for every value read', async () => {
    const { bytes } = printBook(procedureBook(facts(), it.input), it.fonts, { fillable: true });
    const names = (await PDFDocument.load(bytes))
      .getForm()
      .getFields()
      .map((field) => field.getName());
    expect(names).toContain('OM-3140, Check the drift, Check the drift 9, lip drift');
    expect(names).toContain('OM-3140, Renew the seal, 19, rod wear');
  });

  test('without asking there is no form', async () => {
    const { bytes } = printBook(shortProcedure(facts(), it.input), it.fonts);
    expect((await PDFDocument.load(bytes)).getForm().getFields()).toEqual([]);
  });
});

describe.skipIf(!hasTool('pdfdetach'))('what travels inside', () => {
  test('the text comes out as it went in, and the checklist keeps to its schema', () => {
    const guide = it.report.facts.guides[0] as (typeof it.report.facts.guides)[number];
    const held = guide.tree.parts.flatMap((part) => part.entries.map(({ document }) => document));
    const procedures = it.report.facts.procedures.filter(({ head }) => held.includes(head.id));
    const attachments = attachmentsOf(procedures, guide, it.input);
    const file = keep('attached', printBook(guideBook(guide, it.input), it.fonts, { attachments }).bytes);
    const list = run('pdfdetach', '-list', file);
    expect(list).toContain(`${1 + 2 * procedures.length} embedded files`);
    run('pdfdetach', '-saveall', '-o', folder, file);
    const take = (name: string): string => readFileSync(join(folder, name), 'utf8');
    const source = it.texts.find(({ path }) => path === 'procedures/OM-3140-lip-cylinder.md')?.text;
    expect(take('OM-3140-lip-cylinder.md')).toBe(source);
    expect(violationsOf('checklist', JSON.parse(take('OM-3140-checklist.json')))).toEqual([]);
  });
});
