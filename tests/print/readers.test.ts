/** Every sample print through every reader at hand: qpdf, poppler, MuPDF, Ghostscript. None may complain, and poppler's tree must hold text. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sample } from '../support/sample.ts';
import { samplePrints } from '../support/sample-prints.ts';
import { hasTool } from '../support/tools.ts';

const folder = mkdtempSync(join(tmpdir(), 'handsclear-readers-'));
const files: string[] = [];
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeAll(async () => {
  const { report, input, fonts } = await sample();
  for (const { name, make } of samplePrints(report.facts, input, fonts)) {
    if (!name.endsWith('.pdf')) continue;
    files.push(join(folder, name));
    writeFileSync(join(folder, name), make());
  }
});

/** poppler's table knows these attributes and does not give them to a Form, as ISO 32000-1, 14.8.5.6 does. */
const OF_A_BOX = /Wrong Attribute '(Role|checked|Desc)' in element Form/;

/** What it said that is a complaint; what it wrote. A build of MuPDF without colour profiles says so: that is not about our file. */
function run(program: string, ...words: string[]): { readonly complaints: readonly string[]; readonly out: string } {
  const { stdout, stderr, status } = spawnSync(program, words, { encoding: 'utf8', maxBuffer: 1e9 });
  const said = stderr
    .split('\n')
    .filter((line) => /error|warn|invalid|damaged|repair/i.test(line) && !line.includes('ICC support') && !OF_A_BOX.test(line));
  return { complaints: status === 0 ? said : [`exit ${status}`, ...said], out: stdout };
}

const readers: readonly (readonly [string, readonly string[]])[] = [
  ['qpdf', ['--check', 'FILE']],
  ['pdfinfo', ['FILE']],
  ['pdfinfo', ['-dests', 'FILE']],
  ['pdftotext', ['-layout', 'FILE', '-']],
  ['pdffonts', ['FILE']],
  ['mutool', ['draw', '-q', '-r', '30', '-o', '/dev/null', '-F', 'pgm', 'FILE']],
  ['gs', ['-q', '-dNOPAUSE', '-dBATCH', '-dSAFER', '-r30', '-sDEVICE=nullpage', 'FILE']],
];

describe.each(readers)('%s %j', (program, words) => {
  test.skipIf(!hasTool(program))('takes every file without a complaint', () => {
    expect(files.length).toBeGreaterThan(7);
    for (const file of files) expect(run(program, ...words.map((word) => (word === 'FILE' ? file : word))).complaints, file).toEqual([]);
  });
});

test.skipIf(!hasTool('pdfinfo'))("poppler's tree holds the text of every tagged file", () => {
  for (const file of files) {
    if (/booklet|two-up/.test(file)) continue;
    const { complaints, out } = run('pdfinfo', '-struct-text', file);
    expect(complaints, file).toEqual([]);
    expect(out.length, file).toBeGreaterThan(5000);
    expect(out, file).toMatch(/^\s*H1/m);
  }
});
