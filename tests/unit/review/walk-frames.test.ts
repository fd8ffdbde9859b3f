/** The time that a walk makes a technician wait, step by step and so far. */
import { describe, expect, test } from 'vitest';
import { walkFrames } from '../../../procedures-schema/review/index.ts';
import { sample } from '../../support/sample.ts';

async function walked(number: string, answers: readonly boolean[], model?: string) {
  const { facts: library } = (await sample()).report;
  const facts = library.procedures.find(({ head }) => head.id === number);
  const name = facts?.machines.map(({ variant }) => variant.name).find((one) => model === undefined || one === model);
  const walk = facts && name !== undefined ? walkFrames(facts, library, name, answers) : undefined;
  if (!walk) throw new Error('no such walk');
  return walk;
}

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('a walk', () => {
  test('tells each wait and what was waited so far, and leaves open what ends when it is seen', async () => {
    const { frames, time } = await walked('OM-1110', [], 'EF-315');
    expect(time).toBe('120 min');
    const waits = frames
      .filter(({ wait }) => wait)
      .map(({ text, wait, waited }) => [text, plain(wait?.time ?? ''), wait?.open, plain(waited.time), waited.open]);
    expect(waits).toMatchInlineSnapshot(`
      [
        [
          "Wait until the shaft mark stands still or only creeps.",
          "",
          true,
          "",
          true,
        ],
        [
          "Wait 2 min.",
          "2 min",
          false,
          "2 min",
          true,
        ],
        [
          "Wait until the shaft mark stands still or only creeps.",
          "",
          true,
          "2 min",
          true,
        ],
      ]
    `);
    // What was left open stays so.
    const open = frames.map(({ waited }) => waited.open);
    expect(open).toEqual([...open].sort());
  });

  test('on a machine without the option waits no time that the option asks for', async () => {
    const minutes = async (model: string): Promise<string> => plain((await walked('OM-1110', [], model)).frames.at(-1)?.waited.time ?? '');
    expect(await minutes('EF-450 with speed drive')).not.toBe(await minutes('EF-450'));
  });
});
