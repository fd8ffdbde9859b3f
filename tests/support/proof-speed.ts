/**
 * The long procedure of the proof's speed run: 12 variants, 10 facts each asked twice and all open at once, 3 nested repeats, calls of
 * 20 other procedures; cold, after an edit that changes a state effect, and over growing lengths. Prints for proof.bench.ts.
 */
import remarkFrontmatter from 'remark-frontmatter';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { eachAction, newEngine, type ProcedureFacts, prove } from '../../procedures-schema/index.ts';
import { numbered } from './cases.ts';
import { FIXTURE_CLOSE, FIXTURE_FRONT, FIXTURE_REGISTERS, FIXTURE_SAFE } from './fixture.ts';

const MODELS = Array.from({ length: 12 }, (_, index) => `DM-${10 + index}`);
const FACTS = ['red', 'blue', 'green', 'white', 'black', 'grey', 'brown', 'pink', 'gold', 'tan'].map((colour) => `the label is ${colour}`);
const CALLED = Array.from({ length: 20 }, (_, index) => `FX-${200 + index}`);
const ROUNDS = 9;
const PATH = 'procedures/FX-100.md';

function front(number: string, start: string, more = ''): string {
  const lines = FIXTURE_FRONT.filter(([key]) => key !== 'symptoms').map(([key, line]) => {
    if (key === 'id') return `id: ${number}`;
    if (key === 'title') return `title: Procedure ${number}`;
    if (key === 'models') return `models: [${MODELS.join(', ')}]`;
    return key.endsWith(' with') ? `${key}: ${start}` : line;
  });
  return `---\n${lines.join('\n')}\n${more}---\n\n`;
}

/** About `steps` steps of its own. `apart`: conditions tell the variants apart, so that they are walked in three groups and not in one. */
export function longProcedure(steps: number, apart = false): string {
  const asked = FACTS.map((fact, index) =>
    index % 3 === 0 ? `#. If ${fact}, loosen the two [scraper bolts].` : `#. If ${fact}, clean the [scraper].`,
  );
  const again = FACTS.map((fact, index) =>
    index % 3 === 0
      ? `#. If ${fact}, tighten the two [scraper bolts] to 25 N·m with the [torque wrench], dry.`
      : `#. If ${fact}, look at the [scraper].`,
  );
  const loop = [
    '#. {#a} Clean the [scraper].',
    '#. {#b} Move the [scraper] to the middle.',
    '#. {#c} Adjust the [scraper].',
    '#. {#r1} Measure the [gap] with the [feeler gauge].',
    '#. {#i} Repeat [steps #c to #r1] until the [gap] is within the limits.',
    '#. {#r2} Measure the [lift] with the [feeler gauge].',
    '#. {#j} Repeat [steps #b to #r2] until the [lift] is within the limits.',
    '#. {#r3} Measure the [play] with the [feeler gauge].',
    '#. Repeat [steps #a to #r3] until the [play] is within the limits.',
  ];
  const calls = CALLED.map((number) => `#. Do [${number}].`);
  const own = asked.length + again.length + loop.length + calls.length + 20;
  const filler = Array.from({ length: Math.max(0, steps - own) }, (_, index) =>
    index % 2 === 0 ? '#. Clean the [scraper] again.' : '#. Look at the [scraper] from outside the guard.',
  );
  const third = Math.floor(filler.length / 3);
  const told = !apart
    ? []
    : [`#. For the ${MODELS[0]} and the ${MODELS[1]}, clean the [scraper].`, `#. For the ${MODELS[2]}, look at the [scraper].`];
  const work = [
    ...told,
    ...asked,
    ...filler.slice(0, third),
    ...again,
    ...loop,
    ...filler.slice(third, 2 * third),
    ...calls,
    ...filler.slice(2 * third),
  ];
  const measured = ['gap', 'lift', 'play'].map(
    (name) =>
      `  ${name}:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}\n`,
  );
  const head = front('FX-100', 'closed', `measurements:\n${measured.join('')}`).replace(
    'tools: none',
    'tools: [feeler gauge, torque wrench]',
  );
  return numbered(`${head}${FIXTURE_SAFE}\n## Work\n\n${work.join('\n')}\n\n${FIXTURE_CLOSE}`);
}

export function longLibrary(steps: number, apart = false): { readonly path: string; readonly text: string }[] {
  const files: Record<string, string> = { ...FIXTURE_REGISTERS };
  const models = MODELS.map((name, index) => `  ${name}: {family: drum mixer, volume: ${10 + index} L}`).join('\n');
  const equipment = files['registers/equipment.yaml'] as string;
  files['registers/equipment.yaml'] = `${equipment.slice(0, equipment.indexOf('\nmodels:'))}\nmodels:\n${models}\n`;
  files['registers/parts.yaml'] = 'parts: {}\n';
  files['registers/symptoms.yaml'] = 'symptoms: {}\n';
  for (const number of CALLED) {
    const body = Array.from({ length: 12 }, (_, index) => (index % 3 === 0 ? '#. Look at the [scraper].' : '#. Clean the [scraper].'));
    files[`procedures/${number}.md`] = numbered(`${front(number, 'opened and locked out')}## Clean\n\n${body.join('\n')}\n`);
  }
  files[PATH] = longProcedure(steps, apart);
  return Object.entries(files).map(([path, text]) => ({ path, text }));
}

export function speed(): void {
  const runs = [...[50, 100, 200, 400].map((steps) => ({ steps, apart: false })), { steps: 200, apart: true }];
  // The first is not told: processor time counts the compiler's threads, which are busy while everything is new.
  for (const [index, { steps, apart }] of [{ steps: 200, apart: true }, ...runs].entries()) {
    const files = longLibrary(steps, apart);
    const engine = newEngine();
    engine.apply(files);
    const report = engine.report();
    const facts = report.facts.procedures.find(({ file }) => file === PATH) as ProcedureFacts;
    const others = (number: string) => report.facts.procedures.find(({ head }) => head.id === number)?.read;
    const input = { procedure: facts.read, machines: facts.machines, registers: report.facts.registers, others };
    const { text } = facts.source;
    const parse = median(() => unified().use(remarkParse).use(remarkGfm).use(remarkFrontmatter).parse(text));
    const cold = median(() => prove({ ...input, machines: facts.machines.map((machine) => ({ ...machine })) }));
    let turn = 0;
    const edit = median(() => {
      // Each time other words with another effect, none of which was proved before.
      const at = turn % 2 === 0 ? 'Adjust the [scraper]' : 'Remove the [scraper]';
      turn += 1;
      engine.apply([
        {
          path: PATH,
          text: text.replace('Adjust the [scraper]', at).replace('from outside the guard.', `from outside the guard, ${turn} times.`),
        },
      ]);
    });
    const { states, transitions } = facts.flow.explored;
    if (index === 0) continue;
    if (steps === 200)
      console.log(`     ${holds(facts)}${apart ? ', told apart by conditions: three groups' : ', walked alike: one group'}`);
    const faults = report.findings.filter(({ severity, file }) => severity !== 'advice' && file === PATH);
    console.log(
      `${`${facts.read.labels.steps.length}`.padStart(4)} steps, ${facts.machines.length} variants: cold ${cold.toFixed(1)} ms of processor, ${(cold / parse).toFixed(2)} times remark-parse (${parse.toFixed(1)} ms); whole check after an edit ${edit.toFixed(1)} ms; ${states} states, ${transitions} transitions; ${facts.flow.verdicts[0]?.verdict}; findings ${faults.length}${faults[0] ? `: ${faults[0].message}` : ''}`,
    );
  }
}

/** What the text asks of the proof, counted in what was read of it. */
function holds(facts: ProcedureFacts): string {
  const actions = [...eachAction(facts.read)].map(({ action }) => action);
  const asked = new Map<string, number>();
  for (const { when } of actions) for (const one of when) if (one.kind === 'fact') asked.set(one.key, (asked.get(one.key) ?? 0) + 1);
  const twice = [...asked.values()].filter((count) => count > 1).length;
  const count = (kind: string): number => actions.filter((action) => action.kind === kind).length;
  return `${twice} facts asked twice, ${count('repeat')} repeats one in the other, ${count('call')} calls of other procedures, ${facts.machines.length} variants`;
}

/** Median of a few runs, the first left out. */
function median(work: () => unknown): number {
  work();
  const times = Array.from({ length: ROUNDS }, () => {
    // Time of the processor, so that what else runs on the machine does not count.
    const start = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  });
  return times.sort((a, b) => a - b)[Math.floor(ROUNDS / 2)] as number;
}
