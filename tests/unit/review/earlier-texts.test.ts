/** Which texts of an earlier state are read for a comparison. */
import { describe, expect, test } from 'vitest';
import { textsFor } from '../../../procedures-schema/review/index.ts';

const text = (id: string, body = ''): string => `---\nid: ${id}\ntitle: T\n---\n${body}\n`;
const all = {
  'library.yaml': 'publisher: Test Works\n',
  'registers/tools.yaml': 'tools:\n',
  'registers/old/tools.yaml': 'tools:\n',
  'procedures/a.md': text('A-1', 'Do [A-2].'),
  'procedures/b.md': text('A-2', 'Do [A-3].'),
  'procedures/c.md': text('A-3'),
  'procedures/d.md': text('A-4'),
  'guides/g.md': text('A-1', 'x'),
  'review/A-1.yaml': 'remarks:\n',
};

describe('the texts of an earlier state', () => {
  test('are the document, what it leads to, what that leads to, and the registers', () => {
    expect(textsFor(all, 'procedures/a.md', 'A-1')?.path).toBe('procedures/a.md');
    expect(Object.keys(textsFor(all, 'procedures/b.md', 'A-2')?.texts ?? {}).sort()).toEqual([
      'library.yaml',
      'procedures/b.md',
      'procedures/c.md',
      'registers/tools.yaml',
    ]);
    expect(Object.keys(textsFor(all, 'procedures/a.md', 'A-1')?.texts ?? {})).toHaveLength(5 + 1);
  });

  test('are found by the number where the file had another name, among its own kind', () => {
    expect(textsFor(all, 'procedures/renamed.md', 'A-1')?.path).toBe('procedures/a.md');
    expect(textsFor(all, 'guides/renamed.md', 'A-1')?.path).toBe('guides/g.md');
    expect(textsFor(all, 'guides/renamed.md', 'A-2')).toBeUndefined();
    expect(textsFor(all, 'procedures/new.md', 'A-9')).toBeUndefined();
  });

  test('hold one whose number only the YAML reader could tell', () => {
    const odd = { ...all, 'procedures/odd.md': '---\nid: >-\n  A-9\ntitle: T\n---\n' };
    expect(Object.keys(textsFor(odd, 'procedures/c.md', 'A-3')?.texts ?? {})).toContain('procedures/odd.md');
  });
});
