/** An engine that keeps six procedures whole says what one says that keeps them all, whatever is edited; and what is forgotten is bounded. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { marginOf } from '../../../procedures-schema/assist/index.ts';
import { type Change, checkLibrary, type Engine, newEngine } from '../../../procedures-schema/index.ts';
import { Recent } from '../../../procedures-schema/recent.ts';
import { coverageOf } from '../../../procedures-schema/review/index.ts';
import { Shelf } from '../../../procedures-schema/shelf.ts';
import { sample } from '../../support/sample.ts';

const { texts, paths } = await sample();
const others = paths.filter((path) => !texts.some((file) => file.path === path));
const procedures = texts.filter(({ path }) => path.startsWith('procedures/'));

/** Slips and changes that reach other files: a lock gone, another number, another title, a register's point, a figure gone, a file gone. */
const EDITS: readonly ((now: ReadonlyMap<string, string>) => readonly Change[])[] = [
  ...procedures.flatMap(({ path }) => [
    (now: ReadonlyMap<string, string>) => [
      { path, text: (now.get(path) ?? '').replace(/^(\d+)\. Put your lock.*$/m, '$1. Wait for 1 min.') },
    ],
    (now: ReadonlyMap<string, string>) => [{ path, text: (now.get(path) ?? '').replace(/^title: .*$/m, 'title: Another title') }],
    (now: ReadonlyMap<string, string>) => [{ path, text: (now.get(path) ?? '').replace(/^id: OM-(\d)/m, 'id: OM-9$1') }],
    () => [{ path, gone: true as const }],
    () => [{ path, text: texts.find((file) => file.path === path)?.text ?? '' }],
  ]),
  ...others.filter((path) => path.startsWith('figures/')).map((path) => () => [{ path, gone: true as const }]),
  (now) => [{ path: 'registers/tools.yaml', text: (now.get('registers/tools.yaml') ?? '').replace('personal lock', 'own lock') }],
  (now) => [{ path: 'registers/equipment.yaml', text: `${now.get('registers/equipment.yaml') ?? ''}\n# looked at\n` }],
];

const said = (engine: Engine): unknown => {
  const { facts, findings } = engine.report();
  return {
    findings: findings.map(({ file, check, message, span }) => `${file} ${span.start} ${check} ${message}`),
    coverage: coverageOf(facts),
    bands: facts.procedures.map((one) => [...one.flow.bands].map(([{ fullLabel }, band]) => `${one.file} ${fullLabel} ${band}`)),
    margins: facts.procedures.map((one) => [one.file, marginOf(one, facts), marginOf(one, facts, one.machines[0]?.variant.name ?? '')]),
    steps: facts.procedures.map(({ read, flow, references }) => [read.steps.length, flow.violations.length, references.length]),
  };
};

describe('a library of which little is kept whole', () => {
  test('says the same after any edits', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(EDITS.length - 1), { minLength: 1, maxLength: 5 }), (chosen) => {
        const engine = newEngine(6);
        const begin: Change[] = [...texts, ...others.map((path) => ({ path, present: true as const }))];
        engine.apply(begin);
        const here = new Set([...texts.map(({ path }) => path), ...others]);
        for (const index of chosen) {
          const changes = (EDITS[index] as (typeof EDITS)[number])(engine.texts);
          engine.apply(changes);
          for (const change of changes) {
            if ('gone' in change) here.delete(change.path);
            else here.add(change.path);
          }
          while (engine.readOn(4).waiting > 0);
        }
        const whole = newEngine();
        whole.apply([...engine.texts].map(([path, text]) => ({ path, text })));
        whole.apply([...here].filter((path) => !engine.texts.has(path)).map((path) => ({ path, present: true as const })));
        expect(said(engine)).toEqual(said(whole));
        const once = checkLibrary(
          [...engine.texts].map(([path, text]) => ({ path, text })),
          [...here],
        );
        expect(engine.report().counts).toEqual(once.counts);
      }),
      { numRuns: 3 },
    );
  }, 240_000);

  test('a register edit leaves the rest of a long library for later, and what was looked at is there at once', () => {
    const engine = newEngine(4);
    engine.apply(texts);
    const open = engine.report().facts.procedures[7];
    expect(open?.tree.sections.length).toBeGreaterThan(0);
    const register = engine.texts.get('registers/tools.yaml') ?? '';
    const delta = engine.apply([{ path: 'registers/tools.yaml', text: `${register}# more\n` }]);
    expect(delta.waiting).toBe(procedures.length - 3);
    expect([...delta.findings.keys()]).toContain(open?.file);
  });

  test('keeps no more whole than it is told to', () => {
    let read = 0;
    const facts = newEngine();
    facts.apply(texts);
    const all = facts.report().facts.procedures;
    const shelf = new Shelf(
      {
        read: (file) => {
          read += 1;
          return all.find((one) => one.file === file) as (typeof all)[number];
        },
        prove: ({ file }) => (all.find((one) => one.file === file) as (typeof all)[number]).flow,
      },
      2,
    );
    const kept = all
      .slice(0, 3)
      .map((one) => shelf.put({ ...one, tree: one.tree, names: one.names, read: one.read, references: one.references }));
    for (const one of kept.slice(1)) expect(one.tree).toBeDefined();
    expect(read).toBe(0);
    expect(kept[0]?.tree).toBeDefined();
    expect(read).toBe(1);
    // The two used last are there, the second went.
    expect(kept[2]?.tree).toBeDefined();
    expect(read).toBe(1);
    expect(kept[1]?.flow.violations).toBeDefined();
    expect(read).toBe(2);
    // Whoever looks in passing has it made once, and what was used last is there afterwards.
    shelf.inPassing(() => {
      expect(kept[0]?.tree).toBeDefined();
      expect(kept[0]?.names).toBeDefined();
    });
    expect(read).toBe(3);
    expect(kept[1]?.tree).toBeDefined();
    expect(kept[2]?.tree).toBeDefined();
    expect(read).toBe(3);
    expect(kept[0]?.tree).toBeDefined();
    expect(read).toBe(4);
  });
});

test('what was asked for lately is remembered, and never more than twice the half', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 6 }), fc.array(fc.nat(30), { maxLength: 80 }), (half, asked) => {
      const recent = new Recent<string, number>(half);
      const last: number[] = [];
      for (const key of asked) {
        if (last.slice(-half).includes(key)) expect(recent.get(`${key}`)).toBe(key);
        if (recent.get(`${key}`) === undefined) recent.set(`${key}`, key);
        expect(recent.size).toBeLessThanOrEqual(2 * half);
        last.splice(last.indexOf(key), last.includes(key) ? 1 : 0);
        last.push(key);
      }
    }),
  );
});
