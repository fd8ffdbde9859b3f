/** The font files as they are handed to a printing, all at once or each when it is asked for. */
import { describe, expect, test } from 'vitest';
import { fontsAsAsked, readFonts } from '../../../electron/host/files/index.ts';

describe('font files', () => {
  test('are the same bytes, read at once or when they are asked for', async () => {
    const all = await readFonts();
    const asked = fontsAsAsked();
    expect(Object.keys(asked)).toEqual(Object.keys(all));
    for (const face of Object.keys(all) as (keyof typeof all)[]) {
      expect(Buffer.compare(asked[face], all[face]), face).toBe(0);
      expect(asked[face], face).toBe(asked[face]);
    }
  });
});
