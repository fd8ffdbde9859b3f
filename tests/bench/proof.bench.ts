/**
 * `npm run bench:proof`: slips done to the sample library, every place where each can be made, and how many the rules named for it
 * find. What they do not find is given to the naive checker: only where it finds nothing either is the slip none. The rest is listed. Then how long the proof of a long procedure takes, as a ratio to the parse of its text in
 * the same run, and how that grows. Prints; judges nothing.
 *
 *   npm run bench:proof -- [mutants | speed]
 */
import { readLibrary } from '../../electron/host/files/index.ts';
import { type Engine, newEngine } from '../../procedures-schema/index.ts';
import { allMutants, type Mutant, OPERATORS } from '../support/mutations.ts';
import { naiveOn } from '../support/naive-library.ts';
import { PROOF_OPERATORS } from '../support/proof-mutations.ts';
import { speed } from '../support/proof-speed.ts';

const what = process.argv[2];
if (what !== 'speed') await mutants();
if (what !== 'mutants') speed();

async function mutants(): Promise<void> {
  const disk = await readLibrary('sample-procedures');
  const engine = newEngine();
  engine.apply([
    ...disk.texts,
    ...disk.paths.filter((path) => !disk.texts.some((file) => file.path === path)).map((path) => ({ path, present: true as const })),
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
  const groups = [
    ...names.map((name) => [name, allMutants(name, procedures, registers, OPERATORS)] as const),
    ...Object.keys(PROOF_OPERATORS).map((name) => [name, allMutants(name, procedures, registers, PROOF_OPERATORS)] as const),
  ];
  const texts = new Map(disk.texts.map(({ path, text }) => [path, text]));
  let killed = 0;
  let all = 0;
  let none = 0;
  const weak: string[] = [];
  console.log(`${''.padEnd(30)} found     of  share   no slip  passed by`);
  for (const [name, { list, skipped }] of groups) {
    const judged = list.map((mutant) => judge(engine, mutant, texts.get(mutant.file) as string));
    const own = judged.filter(({ kind }) => kind === 'found').length;
    const equal = judged.filter(({ kind }) => kind === 'no slip').length;
    const meant = list.length - equal;
    killed += own;
    all += meant;
    none += equal;
    const share = meant === 0 ? 100 : (100 * own) / meant;
    if (share < 95) weak.push(name);
    const by = [...skipped].map(([why, count]) => `${count}: ${why}`).join('; ');
    console.log(
      `${name.padEnd(30)} ${`${own}`.padStart(5)} ${`${meant}`.padStart(6)} ${share.toFixed(1).padStart(6)} ${`${equal}`.padStart(9)}  ${by}`,
    );
    for (const { line } of judged) if (line) console.log(`  ${line}`);
  }
  console.log(
    `found by the rules named for them: ${killed} of ${all} (${((100 * killed) / all).toFixed(1)} %); ${none} more are no slip, for the naive checker finds nothing either; under 95 %: ${weak.join(', ') || 'none'}`,
  );
}

interface Judged {
  readonly kind: 'found' | 'no slip' | 'missed';
  readonly line?: string;
}

/** Whether a rule named for the slip finds it; if not, what the naive checker says. */
function judge(engine: Engine, mutant: Mutant, sound: string): Judged {
  engine.apply([{ path: mutant.file, text: mutant.text }]);
  const report = engine.report();
  const found = report.findings.filter(({ severity }) => severity !== 'advice');
  if (found.some(({ check }) => mutant.checks.includes(check))) {
    engine.apply([{ path: mutant.file, text: sound }]);
    return { kind: 'found' };
  }
  const naive = naiveOn(report, mutant.file);
  engine.apply([{ path: mutant.file, text: sound }]);
  if (naive.found.length === 0 && naive.gaveUp.length === 0) return { kind: 'no slip' };
  const others = [...new Set(found.map(({ check }) => check))].join(', ') || 'nothing';
  const says = naive.found.length > 0 ? naive.found.join(', ') : `gave up on ${naive.gaveUp.join(', ')}`;
  return { kind: 'missed', line: `${mutant.file.split('/')[1]}: ${mutant.what} (${others}; naive: ${says})` };
}
