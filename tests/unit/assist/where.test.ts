import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../../../cli/setup.mjs';
import { whereIs } from '../../../procedures-schema/assist/index.ts';
import { checkLibrary } from '../../../procedures-schema/index.ts';

const SAMPLE = ['procedures/OM-3140-lip-cylinder.md', 'registers/equipment.yaml', 'registers/tools.yaml', 'library.yaml'];
const TEXTS = [
  ...SAMPLE.map((path) => ({ path, text: readFileSync(join(root, 'sample-procedures', path), 'utf8') })),
  {
    path: 'guides/G-1.md',
    text: '---\nid: G-1\ntitle: A guide\nrevision: A\ndate: 2026-01-01\n---\nForeword.\n\n## First part\n- [OM-3140]\n',
  },
  { path: 'registers/parts.yaml', text: 'parts: [\n' },
];
const { facts } = checkLibrary(TEXTS);

/** "document | within | step", with the line, of the first place where the words stand. */
function told(file: string, words: string): string {
  const { text } = TEXTS.find(({ path }) => path === file) as { text: string };
  const offset = text.indexOf(words);
  expect(offset, words).toBeGreaterThan(-1);
  const where = whereIs(file, offset, facts);
  expect(where?.line).toBe(text.slice(0, offset).split('\n').length);
  return [where?.document ?? '', where?.within.join(' > '), where?.step ?? ''].join(' | ');
}

const LIP = SAMPLE[0] as string;

describe('where a place of the library is, in the words of a person', () => {
  test('a step by its section and label, where labels begin anew in each section', () => {
    expect(told(LIP, 'Send everyone off the platform and')).toBe('OM-3140 | Check the drift | 2');
    expect(told(LIP, 'Loosen the [hose nut]')).toBe('OM-3140 | Renew the seal | 10');
  });
  test('what stands between steps by its section, what comes before them all by the document', () => {
    expect(told(LIP, '## Check the drift')).toBe('OM-3140 | Check the drift | ');
    expect(told(LIP, ':::danger')).toBe('OM-3140 | Renew the seal | ');
  });
  test('front matter by its fields', () => {
    expect(told(LIP, 'revision:')).toBe('OM-3140 | revision | ');
    expect(told(LIP, 'laser distance meter')).toMatch(/^OM-3140 \| tools \| $/);
    expect(told(LIP, 'quantity: length')).toBe('OM-3140 | measurements > lip drift | ');
  });
  test('a guide by its part', () => {
    expect(told('guides/G-1.md', '[OM-3140]')).toBe('G-1 | First part | ');
    expect(told('guides/G-1.md', 'Foreword')).toBe('G-1 |  | ');
    expect(told('guides/G-1.md', 'A guide')).toBe('G-1 | title | ');
  });
  test('a register by the names of its entries', () => {
    expect(told('registers/equipment.yaml', '38 kg impeller')).toBe(' | extraction fan > impeller draught | ');
    expect(told('registers/tools.yaml', 'spring scale')).toBe(' | belt gauge | ');
    expect(told('registers/tools.yaml', '# Tools, test')).toBe(' |  | ');
    expect(told('library.yaml', 'publisher:')).toBe(' | publisher | ');
  });
  test('a register that cannot be read by its line alone, and nothing where there is no such text', () => {
    expect(told('registers/parts.yaml', '[')).toMatch(/^ \| (parts)? \| $/);
    expect(whereIs('procedures/none.md', 0, facts)).toBeUndefined();
  });
});
