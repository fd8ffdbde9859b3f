/**
 * `npm run bench:proof`: slips done to the sample library, every place where each can be made, and how many the rules named for it
 * find; those that nothing finds are listed. Then how long the proof of a long procedure takes, as a ratio to the parse of its text in
 * the same run, and how that grows. Prints; judges nothing.
 *
 *   npm run bench:proof -- [mutants | speed]
 */
import { readLibrary } from '../../electron/host/files/index.ts';
import { type Engine, newEngine } from '../../procedures-schema/index.ts';
import { type Mutant, mutantsOf } from '../support/mutations.ts';
import { PROOF_OPERATORS, proofMutantsOf } from '../support/proof-mutations.ts';
import { speed } from '../support/proof-speed.ts';

const what = process.argv[2];
if (what !== 'speed') await mutants();
if (what !== 'mutants') speed();

async function mutants(): Promise<void> {
  const disk = await readLibrary('sample-procedures');
  const engine = newEngine();
  engine.apply([
    ...disk.texts,
    ...disk.paths.filter((path) => path.startsWith('figures/')).map((path) => ({ path, present: true as const })),
  ]);
  const sound = engine.report();
  console.log(`the library as it is: ${sound.counts.error} errors, ${sound.counts.warning} warnings`);
  const { procedures, registers } = sound.facts;
  const names = [
    'drop a lock',
    'drop a try-out',
    'drop a relief',
    'drop a refit',
    'drop a torque',
    'drop an outcome',
    'drop a people-clear',
  ];
  const groups: readonly (readonly [string, readonly Mutant[]])[] = [
    ...names.map((name) => [name, mutantsOf(name, procedures, registers)] as const),
    ...Object.keys(PROOF_OPERATORS).map((name) => [name, proofMutantsOf(name, procedures, registers)] as const),
  ];
  const texts = new Map(disk.texts.map(({ path, text }) => [path, text]));
  let killed = 0;
  let all = 0;
  for (const [name, list] of groups) {
    const left = list.flatMap((mutant) => judged(engine, mutant, texts.get(mutant.file) as string) ?? []);
    killed += list.length - left.length;
    all += list.length;
    console.log(`${name.padEnd(32)} ${list.length - left.length} of ${list.length}`);
    for (const line of left) console.log(`  ${line}`);
  }
  console.log(`found by the rules named for them: ${killed} of ${all} (${((100 * killed) / all).toFixed(1)} %)`);
}

/** What is said of a slip that no rule named for it finds. */
function judged(engine: Engine, mutant: Mutant, sound: string): string | undefined {
  engine.apply([{ path: mutant.file, text: mutant.text }]);
  const found = engine.report().findings.filter(({ severity }) => severity !== 'advice');
  engine.apply([{ path: mutant.file, text: sound }]);
  if (found.some(({ check }) => mutant.checks.includes(check))) return undefined;
  return `${mutant.file.split('/')[1]}: ${mutant.what} (${[...new Set(found.map(({ check }) => check))].join(', ') || 'nothing'})`;
}
