/** Changes that stand in the registers, each told of the texts that have to do with the thing and of no others. */
import { describe, expect, test } from 'vitest';
import { inSample } from '../../support/review.ts';

const EQUIPMENT = 'registers/equipment.yaml';
const FAN = 'procedures/OM-1110-fan-shake.md';
const DAMPER = 'procedures/OM-1130-damper-spring.md';
const LIP = 'procedures/OM-3140-lip-cylinder.md';
const swap = (from: string, to: string) => (text: string) => text.replace(from, to);

describe('a register says otherwise', () => {
  test('of a torque', async () => {
    const edit = swap('hub bolt: {count: 1, torque: 45 N·m', 'hub bolt: {count: 1, torque: 55 N·m');
    expect(await inSample(FAN, EQUIPMENT, edit)).toContain('limits | thing changed | fastener hub bolt: torque | 45 N·m -> 55 N·m');
    expect(await inSample(DAMPER, EQUIPMENT, edit)).toEqual([]);
  });

  test('of the safe position of a point, and then steps do otherwise', async () => {
    const found = await inSample(FAN, EQUIPMENT, swap('restrain: {impeller pin: in}', 'restrain: {impeller pin: out}'));
    expect(found).toContain('protection | thing changed | source impeller draught: restrain | impeller pin: in -> impeller pin: out');
    expect(found.join('\n')).toMatch(/protection \| verdict changed/);
    // The text is as it was, and so may its revision be.
    expect(found.join('\n')).not.toMatch(/reworded|revision kept/);
  });

  test('of what endangers a zone, and names a source that there was not', async () => {
    const found = await inSample(LIP, EQUIPMENT, (text) => {
      const at = text.indexOf('energy:', text.indexOf('  dock leveller:')) + 'energy:'.length;
      return `${text.slice(0, at)}\n      hidden spring: {kind: spring, size: 500 N, restrain: {spring bolt: in}}${text.slice(at)}`;
    });
    expect(found.join('\n')).toMatch(
      /protection \| thing added \| source hidden spring \| {2}-> kind: spring; size: 500 N; restrain: spring bolt: in/,
    );
    expect(found.join('\n')).toMatch(/protection \| thing added \| point spring bolt/);
  });

  test('of what a formula for limits reckons with', async () => {
    const found = await inSample(FAN, EQUIPMENT, swap('impeller diameter: 315 mm', 'impeller diameter: 320 mm'));
    expect(found).toContain('limits | thing changed | model EF-315: impeller diameter | 315 mm -> 320 mm');
  });

  test('of a tool that is named, and of one that is not', async () => {
    const edit = swap('laser distance meter: {kind: rule, range: 50 mm', 'laser distance meter: {kind: rule, range: 80 mm');
    expect((await inSample(LIP, 'registers/tools.yaml', edit)).join('\n')).toMatch(
      /limits \| thing changed \| tool laser distance meter: range/,
    );
    expect(await inSample(FAN, 'registers/tools.yaml', edit)).toEqual([]);
  });

  test('in a comment only, which is nothing', async () => {
    expect(await inSample(FAN, EQUIPMENT, (text) => `# As measured.\n${text}`)).toEqual([]);
  });
});
