/** A proof that is brought up to date from the one before says what a proof from nothing says, whatever was typed between. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compile, ProvedBefore, prove } from '../../procedures-schema/flow/index.ts';
import { saySame } from '../../procedures-schema/flow/proved-before.ts';
import { newEngine } from '../../procedures-schema/index.ts';
import { sample } from '../support/sample.ts';

const { texts } = await sample();
const procedures = texts.filter(({ path }) => path.startsWith('procedures/'));

/** Scraps of what writers type: words that mean something, words that do not, marks that break a block. */
const scraps = [
  'a',
  ' ',
  '\n',
  ' slowly',
  ' not',
  ' Switch off the [main isolator].',
  '\n1. Put your lock and tag on the [main isolator].',
  ' Keep the gauge in view as long as hands are in.',
  ' for the leak test',
  '\n   - If it fails, stop.',
  '[',
  '#',
  '\n\n## More\n\n1. Wait 5 min.\n',
];

/** One for all: what came before must not show, so the texts of the tests before are part of the trial. */
const engine = newEngine();
engine.apply(texts);

describe.each(procedures.map(({ path, text }) => [path, text] as const))('%s', (path, text) => {
  test('edit after edit', () => {
    const edits = fc.array(fc.tuple(fc.nat(text.length), fc.nat(6), fc.constantFrom(...scraps)), { minLength: 3, maxLength: 6 });
    fc.assert(
      fc.property(edits, (list) => {
        let now = text;
        engine.applyAhead([{ path, text: now }]);
        for (const [at, gone, put] of list) {
          // Typed on where the last edit ended, half of the time: that is when nothing changes but words.
          now = now.slice(0, at % (now.length + 1)) + put + now.slice((at % (now.length + 1)) + (gone > 3 ? gone : 0));
          engine.applyAhead([{ path, text: now }]);
          const { known } = engine;
          const facts = known.procedures.find(({ file }) => file === path);
          if (facts === undefined) throw new Error('the procedure is gone');
          const fresh = prove({
            procedure: facts.read,
            machines: facts.machines,
            registers: known.registers,
            others: (number) => known.procedures.find(({ head }) => head.id === number)?.read,
          });
          const { verdicts, violations, explored, unreached, bands, during } = facts.flow;
          expect({ verdicts, violations, explored, unreached, bands, during }).toEqual(fresh);
          // Told of steps as they are now, those of called procedures included.
          const steps = new Set(known.procedures.flatMap(({ read }) => read.labels.steps));
          for (const step of [...bands.keys(), ...during.keys()]) expect(steps.has(step)).toBe(true);
        }
      }),
      { numRuns: 4, seed: 20 },
    );
    engine.applyAhead([{ path, text }]);
  });
});

test('a word that changes no action is walked no more, one that does is', () => {
  const path = 'procedures/OM-3140-lip-cylinder.md';
  const engine = newEngine();
  engine.apply(texts);
  const text = texts.find((file) => file.path === path)?.text ?? '';
  const programOf = (own: string) => {
    engine.applyAhead([{ path, text: own }]);
    const facts = engine.known.procedures.find(({ file }) => file === path);
    if (facts === undefined) throw new Error('the procedure is gone');
    return compile({ procedure: facts.read, others: (number) => engine.known.procedures.find(({ head }) => head.id === number)?.read });
  };
  const whole = programOf(text);
  const caution = programOf(text.replace('Oil trapped in the hose', 'Much oil trapped in the hose'));
  const tail = programOf(
    text.replace('Send everyone off the platform and out of the pit.', 'Send everyone off the platform and out of the pit. Xyz'),
  );
  const unlocked = programOf(text.replace('Put your lock and tag on the [main isolator].', 'Put your tag on the [main isolator].'));
  expect(caution.code.some(({ place }, node) => place.span.start !== whole.code[node]?.place.span.start)).toBe(true);
  expect([caution, tail, unlocked].map((program) => saySame(whole, program))).toEqual([true, true, false]);
  const before = new ProvedBefore();
  before.keep(whole, new Map());
  expect(before.recall(caution, ['never proved']).size).toBe(0);
});
