/** The list of printable characters is that of the fonts themselves, read by the font library (fontkit, `characterSet`). */
import { create } from 'fontkit';
import { expect, test } from 'vitest';
import { isPrintable } from '../../procedures-schema/checks/printable.ts';
import { sample } from '../support/sample.ts';

test('a character is printable where both weights have it', async () => {
  const { fonts } = await sample();
  const of = (bytes: Uint8Array): readonly number[] =>
    (create(bytes) as unknown as { readonly characterSet: readonly number[] }).characterSet;
  const plain = new Set([...of(fonts.regular), ...of(fonts.fallback)]);
  const bold = new Set([...of(fonts.bold), ...of(fonts.fallbackBold)]);
  const wrong: string[] = [];
  for (let code = 0x20; code <= 0x1ffff; code += 1) {
    if (code >= 0xd800 && code <= 0xdfff) continue;
    const has = plain.has(code) && bold.has(code);
    const said = isPrintable(String.fromCodePoint(code));
    if (has && !said) wrong.push(`${code.toString(16)} is in the fonts and not in the list`);
    // What prints nothing needs no shape: format characters, line separators, selectors of a look (Unicode categories Cf, Zl and variation selectors).
    const silent = /^(?:[\p{Cf}\p{Zl}]|[\ufe00-\ufe0f])$/u.test(String.fromCodePoint(code));
    if (!has && said && !silent) wrong.push(`${code.toString(16)} is in the list and in no font`);
  }
  expect(wrong).toEqual([]);
});
