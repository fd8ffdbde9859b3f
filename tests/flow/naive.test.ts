/**
 * The proof against a second, deliberately naive checker that shares nothing with it but the type of action: random procedures with
 * branches, repeats, calls, facts, roles and sources. Both must break the same rules on the same things, of the same cause, on the same
 * variants, and with the same number of steps of the shortest walk, whether the proof walks the state as a whole or cut in slices. HANDSCLEAR_NAIVE says how many, HANDSCLEAR_SEED repeats a run.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type FlowResult, prove, type Rule } from '../../procedures-schema/index.ts';
import { adapt, placed } from '../support/naive-adapt.ts';
import { type NaiveCase, naiveCase } from '../support/naive-generate.ts';
import { naiveLibrary, OUTCOMES } from '../support/naive-machine.ts';
import { toldCase } from '../support/naive-tell.ts';
import { walkNaive } from '../support/naive-walk.ts';
import { seedOfRun } from '../support/random.ts';

const COUNT = Number(process.env.HANDSCLEAR_NAIVE ?? 1000);
const MOST = 30_000;
const seed = seedOfRun();
const { report, facts } = naiveLibrary();
const registers = report.facts.registers;
const machines = facts.machines;
const ALL = machines.map(({ variant }) => variant.name);

type Told = ReadonlyMap<string, string>;

/** Rule, thing, cause and variants, with the length of the shortest walk. */
function byProof({ procedure, others }: NaiveCase, whole?: number): { readonly told: Told; readonly result: FlowResult } {
  const read = others.map((one) => adapt(one, facts));
  const result = prove({
    procedure: adapt(procedure, facts),
    machines,
    registers,
    others: (number) => read.find(({ head }) => head.id === number),
    ...(whole === undefined ? {} : { whole }),
  });
  const told = new Map<string, string>();
  for (const one of result.violations) {
    const variants = one.variants.length === 0 ? ALL : one.variants;
    const cause = one.cause ? one.cause.span.start / placed(1) : 'start';
    const blameless = one.cause === undefined && NO_BIT.has(one.rule);
    const thing =
      one.rule === 'no-way-out' ? '' : one.rule === 'never-reached' ? one.at.step?.fullLabel.replace(/.*\((.*)\)/, '$1') : one.thing;
    const at = blameless && one.rule !== 'no-way-out' && one.rule !== 'never-reached' ? ` at ${one.at.span.start}` : '';
    told.set(`${one.rule} ${thing} ${cause}${at} on ${variants.join(',')}`, one.rule === 'never-reached' ? '-' : `${one.walk.length}`);
  }
  return { told, result };
}
/** Every rule of the walk. Those told from the words alone (unread, requires, reverse) and the bound have tests of their own. */
const RULES: readonly Rule[] = [
  ...(['H-isolated', 'H-locked', 'H-relieved', 'H-proved', 'proof-early', 'proof-used', 'proof-empty', 'point-locked'] as const),
  ...(['R-people', 'R-tools', 'R-temporary', 'R-controls', 'R-told', 'R-covers'] as const),
  ...(['E-cover', 'E-part', 'E-fastener', 'E-temporary', 'E-lock', 'E-point', 'E-return-test', 'E-told', 'ends-with'] as const),
  ...(['close-unopened', 'outcome-open', 'outcome-unread', 'repeat-unmeasured', 'no-way-out'] as const),
  ...(['falls-into-aside', 'recursion', 'starts-with', 'never-reached'] as const),
];
const NO_BIT: ReadonlySet<string> = new Set([
  'outcome-open',
  'outcome-unread',
  'repeat-unmeasured',
  'recursion',
  'falls-into-aside',
  'no-way-out',
]);

function byHand({
  procedure,
  others,
}: NaiveCase): { readonly told: Told; readonly rules: readonly string[]; readonly states: number } | undefined {
  const told = new Map<string, { readonly variants: string[]; length: number }>();
  const reached = new Set<string>();
  const rules: string[] = [];
  let states = 0;
  for (const machine of machines) {
    const world = { machine, temporary: ['drum wedge'], roles: ['helper'] };
    const result = walkNaive({ procedure, others, world, outcomes: OUTCOMES, most: MOST });
    if (result.bounded) return undefined;
    states += result.states;
    for (const id of result.reached) reached.add(id);
    for (const { rule, thing, cause, at, length } of result.findings) {
      const where = at === 0 ? '' : ` at ${at >= 5_000_000 ? at : placed(at)}`;
      const key = `${rule} ${thing} ${cause < 0 ? 'start' : cause}${where}`;
      const known = told.get(key) ?? { variants: [], length };
      known.variants.push(machine.variant.name);
      known.length = Math.min(known.length, length);
      told.set(key, known);
    }
  }
  const out = new Map<string, string>();
  for (const [key, { variants, length }] of told) {
    out.set(`${key} on ${variants.join(',')}`, `${length}`);
    rules.push(key.split(' ')[0] as string);
  }
  let before = true;
  for (const { id } of procedure.sections.flatMap(({ steps }) => steps)) {
    const there = reached.has(id);
    if (!there && before) {
      out.set(`never-reached ${id} start on ${ALL.join(',')}`, '-');
      rules.push('never-reached');
    }
    before = there;
  }
  return { told: out, rules, states };
}

test(
  `${COUNT} random procedures: proof and naive checker say the same`,
  () => {
    const hits = new Map<string, number>();
    let faulty = 0;
    let judged = 0;
    let skipped = 0;
    let steps = 0;
    let states = 0;
    const differ: string[] = [];
    for (const one of fc.sample(naiveCase, { numRuns: COUNT, seed })) {
      const hand = byHand(one);
      if (!hand) {
        skipped += 1;
        continue;
      }
      judged += 1;
      steps += one.procedure.sections.reduce((sum, section) => sum + section.steps.length, 0);
      states += hand.states;
      const wrong = hand.rules.filter((rule) => rule !== 'never-reached');
      if (wrong.length > 0) faulty += 1;
      for (const rule of new Set(hand.rules)) hits.set(rule, (hits.get(rule) ?? 0) + 1);
      const lines = (of: Told): string[] => [...of].map(([key, length]) => `${key}: ${length}`).sort();
      const b = lines(hand.told);
      let bands: FlowResult['bands'] | undefined;
      // As a whole, and cut in slices at once: both must say what the naive checker says.
      for (const [way, whole] of [['whole', undefined] as const, ['in slices', 0] as const]) {
        const { told, result } = byProof(one, whole);
        expect(result.verdicts.some(({ because }) => because?.includes('stopped'))).toBe(false);
        if (whole === undefined) bands = result.bands;
        else expect(result.bands, `bands, seed ${seed}\n${toldCase(one)}`).toEqual(bands);
        const a = lines(told);
        if (a.join('\n') !== b.join('\n'))
          differ.push(
            `${way}\n${toldCase(one)}\nproof only:\n  ${a.filter((line) => !b.includes(line)).join('\n  ')}\nnaive only:\n  ${b.filter((line) => !a.includes(line)).join('\n  ')}`,
          );
      }
    }
    const table = [...hits].sort((a, b) => b[1] - a[1]).map(([rule, count]) => `  ${rule.padEnd(18)} ${count}`);
    console.log(
      `seed ${seed}: ${judged} procedures of ${(steps / judged).toFixed(0)} steps, ${(states / judged).toFixed(0)} states each, ${skipped} too large; ${((100 * faulty) / judged).toFixed(0)} % faulty\n${table.join('\n')}`,
    );
    differ.sort((a, b) => a.length - b.length);
    expect(differ.length, `seed ${seed}\n${differ.slice(0, 2).join('\n\n')}`).toBe(0);
    const share = (100 * faulty) / judged;
    expect(share, 'faulty of a hundred').toBeGreaterThan(30);
    expect(share, 'faulty of a hundred').toBeLessThan(70);
    for (const rule of RULES)
      expect(hits.get(rule) ?? 0, `${rule}, seed ${seed}`).toBeGreaterThanOrEqual(COUNT >= 10_000 ? 200 : COUNT / 250);
    expect(skipped).toBeLessThan(COUNT / 100);
  },
  Math.max(300_000, COUNT * 120),
);
