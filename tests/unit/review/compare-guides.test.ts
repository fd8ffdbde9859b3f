/** Guides compared: what is bound in, in which order, what stands around it and how it is printed. */
import { describe, expect, test } from 'vitest';
import { inSample } from '../../support/review.ts';

const GUIDE = 'guides/OM-8010-leveller-and-baler.md';
const changed = (edit: (text: string) => string): Promise<readonly string[]> => inSample(GUIDE, GUIDE, edit);

describe('a guide', () => {
  test('with a document more and one fewer', async () => {
    const found = await changed((text) => text.replace('- [OM-3150]', '- [OM-1110]'));
    expect(found).toContain('work | document added | OM-1110 |  -> Dock leveller 2');
    expect(found).toContain('work | document dropped | OM-3150 | Dock leveller 2 -> ');
    expect(found).toContain('scope | revision kept | revision |  -> A');
    expect(found).toHaveLength(3);
  });

  test('in another order, and with one in another part', async () => {
    expect(await changed((text) => text.replace('- [OM-2110]\n- [OM-2120]', '- [OM-2120]\n- [OM-2110]'))).toContain(
      'words | document moved | OM-2110 | Vertical baler 1 -> Vertical baler 2',
    );
    const other = await changed((text) => text.replace('- [OM-3160]\n', '').replace('- [OM-2110]', '- [OM-3160]\n- [OM-2110]'));
    expect(other).toContain('words | document moved | OM-3160 | Dock leveller 3 -> Vertical baler 1');
    expect(other.filter((line) => line.includes('document'))).toHaveLength(1);
  });

  test('with another foreword, another part and other settings', async () => {
    const found = await changed((text) =>
      text
        .replace('Where they ask for more, do more.', 'Where they ask for more, do it.')
        .replace('## Vertical baler', '## Balers')
        .replace('binding: left', 'binding: top')
        .replace('duplex: yes', 'duplex: no')
        .replace(/^revision: "A"/m, 'revision: "B"'),
    );
    expect(found).toContain('scope | value changed | binding | left -> top');
    expect(found).toContain('scope | value changed | duplex | yes -> no');
    expect(found).toContain('words | entry added | parts |  -> Balers');
    expect(found.join('\n')).toMatch(/words \| text changed \| foreword \| .*do more\. -> .*do it\./);
    expect(found.join('\n')).not.toContain('revision kept');
  });

  test('whose document changed, by its text or by a register', async () => {
    const LIP = 'procedures/OM-3140-lip-cylinder.md';
    expect(await inSample(GUIDE, LIP, (text) => text.replace(/^2\. Put your lock and tag on the \[main isolator\]\.\n/m, ''))).toContain(
      'protection | document changed | OM-3140 |  -> ',
    );
    expect(
      await inSample(GUIDE, 'registers/equipment.yaml', (text) =>
        text.replace('gland nut: {count: 1, torque: 180', 'gland nut: {count: 1, torque: 190'),
      ),
    ).toEqual(expect.arrayContaining([expect.stringMatching(/^limits \| document changed \| OM-3140/)]));
  });
});
