/** The commands as typed: exit codes, files written whole, reports for programs, and what stands in the way of publishing. */
import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { violationsOf } from '../../../procedures-schema/schemas/index.ts';
import { pictureFile } from '../../support/figures.ts';
import { SAMPLE } from '../../support/sample.ts';
import { typed } from '../../support/typed.ts';

const folder = mkdtempSync(join(tmpdir(), 'handsclear-cli-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The sample library with one slip in it. */
function broken(): string {
  const copy = join(folder, 'broken');
  cpSync(SAMPLE, copy, { recursive: true });
  const file = join(copy, 'procedures/OM-2120-guide-shoes.md');
  writeFileSync(file, readFileSync(file, 'utf8').replace(/^8\. Put your lock and tag on the .*$/m, '8. Wait 1 min.'));
  return copy;
}

describe('check', () => {
  test('a clean library: exit 0, and never a word that the machine is safe', async () => {
    const { code, out } = await typed('check', SAMPLE);
    expect(code).toBe(0);
    expect(out).toContain('A clean check does not make a machine safe.');
  });

  test('a control character in a file or in its name is shown as one that is damaged, and the terminal obeys none', async () => {
    const copy = join(folder, 'controls');
    cpSync(SAMPLE, copy, { recursive: true });
    const file = join(copy, 'procedures/OM-2120-guide-shoes.md');
    writeFileSync(join(copy, 'procedures/\u001b[2J.md'), readFileSync(file, 'utf8').replace('id: OM-2120', 'id: OM-2121\u001b[2J\u0000'));
    const { out } = await typed('check', copy);
    expect(out).toContain('OM-2121\ufffd');
    expect(out).not.toMatch(/[^\P{Cc}\n]/u);
  });

  test('a report for programs has the shape that is promised', async () => {
    const { code, out } = await typed('check', broken(), '--report', 'json');
    expect(code).toBe(1);
    const report = JSON.parse(out);
    expect(Object.keys(report.counts)).toEqual(['error', 'warning', 'advice']);
    expect(report.read.unread).toBe(0);
    const found = report.findings.find((finding: { check: string }) => finding.check === 'hands-locked');
    expect(found.file).toBe('procedures/OM-2120-guide-shoes.md');
    expect(found.range.start.line).toBeGreaterThan(1);
    expect(found.walk.length).toBeGreaterThan(3);
    expect(found.expected).toContain('lock and tag');
    expect([report.caution, report.files]).toEqual([expect.stringContaining('does not make a machine safe'), 30]);
    for (const key of ['check', 'severity', 'message', 'why', 'related', 'steps', 'variants']) expect(found).toHaveProperty(key);
  });

  test.each([
    [['check', 'nowhere'], 'There is no folder'],
    [['check', 'tests'], 'is not a library'],
    [['check', SAMPLE, '--model', 'EF-316'], 'Did you mean EF-315?'],
    [['chek'], 'Did you mean check?'],
    [['check', '--modle', 'X'], 'Did you mean --model?'],
    [['check', `${SAMPLE}/procedures`], 'One stands at '],
    [['check', 'C:\\Users\\Jürgen\\library'], 'There is no folder "C:\\Users\\Jürgen\\library": nothing stands at '],
    [['check', 'my', 'library'], 'What has spaces in it wants quotation marks around it.'],
    [['print', '--to', 'x.pdf'], 'print wants <guide|procedure>. See: handsclear print --help'],
    [['compute', '0.3 % of impeller diameter', '--library', SAMPLE], '--library goes with --model'],
  ])('%j could not run: exit 2', async (words, said) => {
    const { code, err } = await typed(...words);
    expect(code).toBe(2);
    expect(err).toContain(said);
  });
});

test('a register saved as UTF-16 is named below all that follows from it', async () => {
  const copy = join(folder, 'wide');
  cpSync(SAMPLE, copy, { recursive: true });
  const file = join(copy, 'registers/tools.yaml');
  writeFileSync(file, `\uFEFF${readFileSync(file, 'utf8')}`, 'utf16le');
  const { code, out } = await typed('check', copy);
  expect([code, out]).toEqual([1, expect.stringContaining('Not read, so put right first: registers/tools.yaml.')]);
  expect((await typed('check', SAMPLE)).out).not.toContain('put right first');
});

test('so is a register with a slip in it, which makes names unknown everywhere', async () => {
  const library = join(folder, 'torn');
  cpSync(SAMPLE, library, { recursive: true });
  const tools = join(library, 'registers/tools.yaml');
  writeFileSync(tools, readFileSync(tools, 'utf8').replace('personal lock: {', 'personal lock: "{'));
  const { code, out } = await typed('check', library);
  expect(code).toBe(1);
  expect(out.replace(/\s+/g, ' ')).toContain(
    'Not read as it was meant, so put right first: registers/tools.yaml. What is told of other files',
  );
});

test('what people type in another way is understood', async () => {
  const full = await typed('print', '--help');
  expect(await typed('help', 'print')).toEqual(full);
  expect((await typed('version')).out).toMatch(/^handsclear \d/);
  const to = join(folder, 'typed.json');
  for (const name of ['om-1110', 'procedures/OM-1110-fan-shake.md', `${SAMPLE}/procedures/OM-1110-fan-shake.md`])
    expect([name, (await typed('checklist', name, '--library', SAMPLE, '--to', to)).code]).toEqual([name, 0]);
  const { out } = await typed('explain', 'hands-locked');
  expect((await typed('explain', '[Hands-Locked]')).out).toBe(out);
  const pdf = join(folder, 'typed.pdf');
  expect((await typed('print', 'OM-1110', '--library', SAMPLE, '--to', pdf, '--edition', 'SHORT', '--booklet', '--sheet', 'A3')).code).toBe(
    0,
  );
});

test('of two documents with one number neither is printed, and a draft asks which', async () => {
  const copy = join(folder, 'twins');
  cpSync(SAMPLE, copy, { recursive: true });
  cpSync(join(copy, 'procedures/OM-1110-fan-shake.md'), join(copy, 'procedures/Copy of fan shake.md'));
  const sheet = (asked: string, ...more: string[]) =>
    typed('checklist', asked, '--library', copy, '--to', join(folder, 'twin.json'), ...more);
  for (const file of ['procedures/OM-1110-fan-shake.md', 'procedures/Copy of fan shake.md']) {
    const { code, err } = await sheet(file);
    expect([code, err]).toEqual([1, expect.stringContaining('[document-number]')]);
  }
  const { code, err } = await sheet('OM-1110', '--draft');
  expect([code, err]).toEqual([2, expect.stringContaining('More than one document has the number OM-1110. Give the path')]);
});

test('the finding that README.md shows is what is said of the slip it names', async () => {
  const [, block = ''] = /A finding looks like this:\n\n((?: {4}.*\n|\n)+)/.exec(readFileSync('README.md', 'utf8')) ?? [];
  const shown = block.split('\n').flatMap((line) => (/^\s*(\.\.\.)?$/.test(line) ? [] : [line.slice(4)]));
  expect(shown.length).toBeGreaterThan(10);
  const { out } = await typed('check', broken());
  const said =
    out
      .split('\n\n')
      .find((one) => one.includes(shown[1] ?? '?'))
      ?.split('\n') ?? [];
  let at = -1;
  for (const line of shown) {
    const found = said.indexOf(line, at + 1);
    expect(found, line).toBeGreaterThan(at);
    at = found;
  }
});

describe('figures', () => {
  const procedure = 'procedures/OM-3160-relief-pressure.md';
  const figure = 'figures/pump-bay.svg';

  test('a picture that alone was changed is checked, and put right again', async () => {
    const copy = join(folder, 'pictures');
    cpSync(SAMPLE, copy, { recursive: true });
    const file = join(copy, figure);
    const whole = readFileSync(file, 'utf8');
    const found = async (text: string): Promise<readonly string[]> => {
      writeFileSync(file, text);
      const { out } = await typed('check', copy, '--report', 'json');
      const told = JSON.parse(out).findings.map((one: { check: string; file: string }) => `${one.check} ${one.file}`);
      return told.filter((one: string) => /^(figure|callout)-/.test(one));
    };
    expect(await found(whole)).toEqual([]);
    expect(await found(whole.replace('>5</text>', '>8</text>'))).toContain(`callout-there ${procedure}`);
    expect(await found(whole.slice(0, 900))).toEqual([`figure-whole ${procedure}`]);
    expect(await found(whole)).toEqual([]);
  });

  test('a damaged picture stands in the way of printing what shows it', async () => {
    const copy = join(folder, 'damaged');
    cpSync(SAMPLE, copy, { recursive: true });
    const path = join(copy, procedure);
    writeFileSync(path, readFileSync(path, 'utf8').replace(figure, 'figures/pump-bay.png'));
    const to = join(folder, 'pump.pdf');
    const print = () => typed('print', 'OM-3160', '--library', copy, '--to', to);
    const bytes = pictureFile('rgb.png');
    writeFileSync(join(copy, 'figures/pump-bay.png'), bytes.slice(0, 700));
    const { code, err } = await print();
    expect(code).toBe(1);
    expect(err.replace(/\s+/g, ' ')).toContain('It is cut off: the file ends before the picture does.');
    expect(existsSync(to)).toBe(false);
    writeFileSync(join(copy, 'figures/pump-bay.png'), bytes);
    expect((await print()).code).toBe(0);
  });
});

describe('print and checklist', () => {
  test('bars since a folder, or since a revision of the history; what names neither is refused', async () => {
    const library = join(folder, 'issued');
    cpSync(SAMPLE, library, { recursive: true });
    const then = join(folder, 'then');
    cpSync(SAMPLE, then, { recursive: true });
    const git = (...words: string[]): void => {
      const env = { ...process.env, GIT_CONFIG_GLOBAL: '', GIT_CONFIG_NOSYSTEM: '1' };
      execFileSync('git', ['-C', library, '-c', 'user.name=A', '-c', 'user.email=a@example.com', ...words], { env });
    };
    git('init', '-q');
    git('add', '-A');
    git('commit', '-q', '-m', 'Issue A');
    git('tag', 'issue-a');
    const figure = join(library, 'figures/guide-shoes.svg');
    writeFileSync(figure, readFileSync(figure, 'utf8').replace('</svg>', '<rect width="40" height="9"/></svg>'));
    const printed = async (...more: string[]): Promise<Buffer> => {
      const to = join(folder, `bars-${more[1] ?? 'none'}.pdf`.replaceAll('/', '-'));
      const { code, err } = await typed('print', 'OM-2120', '--library', library, '--to', to, ...more);
      expect(code).toBe(0);
      // Another figure under the same revision.
      if (more.length === 0) expect(err).toBe('');
      else expect(err).toMatch(/OM-2120-guide-shoes\.md:1:1: note \[revision-kept\]\n {2}OM-2120 is not what it was in the issue before/);
      return readFileSync(to);
    };
    const [none, revision, before] = [await printed(), await printed('--changed-since', 'issue-a'), await printed('--changed-since', then)];
    expect(revision.equals(before)).toBe(true);
    expect(revision.equals(none)).toBe(false);
    const text = join(library, 'procedures/OM-2120-guide-shoes.md');
    writeFileSync(text, readFileSync(text, 'utf8').replace('Put on the [safety glasses]', 'Put on the clean [safety glasses]'));
    const leaf = async (...more: string[]): Promise<Buffer> => {
      const to = join(folder, `leaf-${more.length}.pdf`);
      expect((await typed('print', 'OM-2120', '--library', library, '--to', to, '--edition', 'short', ...more)).code).toBe(0);
      return readFileSync(to);
    };
    expect((await leaf()).equals(await leaf('--changed-since', 'issue-a'))).toBe(false);
    const refused = await typed('print', 'OM-2120', '--library', library, '--to', join(folder, 'x.pdf'), '--changed-since', 'issue-b');
    expect(refused.code).toBe(2);
    // What could not be read then is not compared, and a page without bars does not pass for one where nothing changed.
    const earlier = join(then, 'procedures/OM-2120-guide-shoes.md');
    writeFileSync(earlier, readFileSync(earlier, 'utf8').replace('id: OM-2120', 'id:OM-2120'));
    const blind = await typed('print', 'OM-2120', '--library', library, '--to', join(folder, 'y.pdf'), '--changed-since', then);
    expect(blind.code).toBe(0);
    expect(blind.err).toContain('OM-2120 cannot be found there, so it was not compared and has no bars.');
    expect(blind.err).toMatch(/errors stand in the library as it was.*\n {2}procedures\/OM-2120-guide-shoes\.md:2:1 /);
    expect(refused.err).toContain('"issue-b" is neither a folder that holds a library nor a revision in the history of this one.');
  });

  test('errors stand in the way, a draft goes through and says so', async () => {
    const library = broken();
    const pdf = join(folder, 'shoes.pdf');
    const refused = await typed('print', 'OM-2120', '--library', library, '--to', pdf);
    expect(refused.code).toBe(1);
    expect(refused.err).toContain('--draft');
    // It ends with what was not written, not with a count as if a check had been asked for.
    expect(refused.err.replace(/\s+/g, ' ')).toMatch(
      /OM-2120 is not published: (an error stands|\d+ errors stand) in the way\. Nothing was written to [^ ]+\.pdf\. With --draft .*$/,
    );
    expect(refused.err).not.toContain('not understood.');
    expect(existsSync(pdf)).toBe(false);
    expect((await typed('print', 'OM-2120', '--library', library, '--to', pdf, '--draft', '--paper', 'letter')).code).toBe(0);
    expect(readFileSync(pdf).subarray(0, 8).toString()).toBe('%PDF-1.7');
    const json = join(folder, 'shoes.json');
    expect((await typed('checklist', 'OM-2120', '--library', library, '--to', json)).code).toBe(1);
    expect((await typed('checklist', 'OM-2120', '--library', library, '--to', json, '--draft')).code).toBe(0);
    const made = JSON.parse(readFileSync(json, 'utf8'));
    expect(made.draftLine).toBe('DRAFT: NOT FOR FIELD USE');
    expect(violationsOf('checklist', made)).toEqual([]);
  });

  test('a paper checklist, as a form with its text inside, and as a booklet', async () => {
    const pdf = join(folder, 'lip.pdf');
    const print = (...words: string[]) => typed('print', 'OM-3140', '--library', SAMPLE, '--to', pdf, '--edition', 'short', ...words);
    expect(await print()).toEqual({ code: 0, out: `${pdf}: 4 pages.\n`, err: '' });
    const paper = readFileSync(pdf).length;
    expect((await print('--fillable', '--attach')).code).toBe(0);
    expect(readFileSync(pdf).length).toBeGreaterThan(paper);
    expect((await print('--booklet', '--test-sheet', '--cut-marks')).out).toBe(`${pdf}: 4 pages on 4 sides.\n`);
  });

  test('an error in another procedure does not stand in the way', async () => {
    const { code } = await typed('checklist', 'OM-1110', '--library', broken(), '--to', join(folder, 'fan.json'));
    expect(code).toBe(0);
  });

  test.each([
    [['print', 'OM-2120'], 'OM-2120 is not for DL-25. It is for: VB-20, VB-40, VB-60.'],
    [['print', 'OM-2120', '--draft'], 'OM-2120 is not for DL-25.'],
    [['print', 'OM-2120', '--edition', 'short'], 'OM-2120 is not for DL-25.'],
    [['print', 'OM-8020'], 'OM-8020 holds no procedure for DL-25. It is for: EF-315,'],
    [['print', 'OM-8020', '--edition', 'short'], 'OM-8020 holds no procedure for DL-25.'],
    [['checklist', 'OM-2120'], 'OM-2120 is not for DL-25.'],
    [['narrate', 'OM-2120'], 'OM-2120 is not for DL-25. It is for: VB-20, VB-40, VB-60.'],
  ])('%j has no edition for a model it is not written for, and nothing is written', async (words, said) => {
    const to = join(folder, 'other-machine');
    const { code, err } = await typed(...words, '--library', SAMPLE, '--model', 'DL-25', '--to', to);
    expect(code).toBe(2);
    expect(err).toContain(said);
    expect(existsSync(to)).toBe(false);
  });

  test('a guide for one model says what it leaves out, in both editions, and carries no checklist of it', async () => {
    const pdf = join(folder, 'one-model.pdf');
    for (const edition of ['full', 'short']) {
      const print = await typed('print', 'OM-8010', '--library', SAMPLE, '--to', pdf, '--model', 'DL-25', '--edition', edition, '--attach');
      expect(print.code).toBe(0);
      expect(print.err).toBe('Left out, because not written for DL-25: OM-2110, OM-2120, OM-2130.\n');
    }
  });

  test.each([
    [['print', 'OM-8010', '--library', SAMPLE], 'print wants --to'],
    [
      ['print', 'OM-3140', '--library', SAMPLE, '--to', 'package.json/x.pdf'],
      '"package.json/x.pdf" cannot be written: a part of its path is a file',
    ],
    [['print', 'OM-8011', '--library', SAMPLE, '--to', 'x.pdf'], 'Did you mean OM-8010?'],
    [
      ['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--paper', 'a3'],
      '--paper is a4 or letter or a5 or a size such as "160 x 230 mm", not "a3".',
    ],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--paper', '80 x 120 mm'], 'The smallest is 120 x 170 mm.'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--paper', '11 x 8.5 in'], 'lies on its side'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--binding', 'right'], '--binding is left or top or none, not "right".'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--one-sided', '--two-sided'], 'either --one-sided or --two-sided'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--booklet', '--one-sided'], 'is printed on both sides'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--booklet', '--binding', 'top'], 'is folded at the left'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--signature', '4'], '--signature goes with --booklet or --two-up'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--booklet', '--two-up'], 'either a --booklet or --two-up'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--booklet', '--signature', '0'], 'a number of sheets'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--booklet', '--thickness', '3'], 'millimetres from 0 to 1'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--edition', 'short', '--large-type'], 'is for the full edition'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--sign-off', '--no-sign-off'], 'either --sign-off or --no-sign-off'],
    [['print', 'OM-8010', '--library', SAMPLE, '--to', 'x.pdf', '--two-up', '--fillable'], '--fillable makes no sense'],
  ])('%j could not run: exit 2', async (words, said) => {
    const { code, err } = await typed(...words);
    expect(code).toBe(2);
    expect(err).toContain(said);
  });
});

describe('compute', () => {
  test.each([
    [['belt deflection(100 in)'], '1.5625 in\n'],
    [['bolt torque(0.20; 16 mm; preload(580 MPa; 156.67 mm2))', '--in', 'lbf·ft'], '160.851 lbf·ft\n'],
    [['0.3 % of impeller diameter', '--library', SAMPLE, '--model', 'EF-450'], '1.35 mm\n'],
  ])('%j', async (words, said) => {
    expect(await typed('compute', ...words)).toEqual({ code: 0, out: said, err: '' });
  });
  test('once for each range of serial numbers where the attributes differ', async () => {
    expect(await typed('compute', '2 * rod diameter', '--library', SAMPLE, '--model', 'DL-25')).toEqual({
      code: 0,
      out: 'DL-25 up to 2199: 50 mm\nDL-25 from 2200: 56 mm\n',
      err: '',
    });
    expect((await typed('compute', '2 * lip length', '--library', SAMPLE, '--model', 'DL-25')).out).toBe('800 mm\n');
  });
  test('no value is exit 1, with the nearest name', async () => {
    const { code, err } = await typed('compute', '2 * impeler diameter', '--library', SAMPLE, '--model', 'EF-450');
    expect([code, err.includes('Did you mean "impeller diameter"?')]).toEqual([1, true]);
  });
  test('an attribute without its model is told as that', async () => {
    const { code, err } = await typed('compute', '2 * impeller diameter');
    expect([code, err]).toEqual([1, expect.stringContaining('Is it an attribute of a model? Then say of which: --model M')]);
  });
  test('without a formula the helpers are listed, each with its source', async () => {
    const { out } = await typed('compute');
    expect(out.match(/ gives /g)?.length).toBeGreaterThanOrEqual(12);
    expect(out).toContain('ISO 898-1');
  });
});
