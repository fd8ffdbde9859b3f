/** Findings that are held back while a long library is read never go over newer ones. */
import { describe, expect, test } from 'vitest';
import { Arriving } from '../../../renderer/state/arriving.ts';

describe('findings held back', () => {
  test('come out once, the last of each file', () => {
    const arriving = new Arriving<string>();
    arriving.hold([['a', []]]);
    arriving.hold([
      ['b', ['damaged']],
      ['a', ['late']],
    ]);
    expect(arriving.take()).toEqual([
      ['a', ['late']],
      ['b', ['damaged']],
    ]);
    expect(arriving.take()).toEqual([]);
  });

  test('are gone where an edit, or a picture that came after, has said more meanwhile', () => {
    const arriving = new Arriving<string>();
    // Read before its picture was there ...
    arriving.hold([
      ['a', []],
      ['b', []],
    ]);
    // ... which then came, and is damaged.
    arriving.overtakenBy([['a', ['damaged picture']]]);
    expect(arriving.take()).toEqual([['b', []]]);
  });
});
