/** `handsclear walk`: one walk through a procedure or a visit, step by step, or what the proof says of all of them. */
import {
  compile,
  compileVisit,
  type LabelledStep,
  type LibraryFacts,
  type Machine,
  type ProcedureFacts,
  type Registers,
  type Symptom,
  walkerOf,
} from '../../procedures-schema/index.ts';
import { graphSvg, inlineOf, plainOf, scopeOf } from '../../publishing/index.ts';
import { CannotRun, type Command, type ExitCode, type Given } from '../command.ts';
import { writeWhole } from '../files.ts';
import { CAUTION } from '../help.ts';
import type { Io } from '../io.ts';
import { type Checked, modelNamed, openLibrary } from '../library.ts';
import { nearest } from '../nearest.ts';
import { blocking, notThere, procedureNamed } from '../publish.ts';
import { wrap } from '../report/wrap.ts';
import { type Answers, answersFrom } from '../walk/answers.ts';
import { type PrintedWalk, printWalk } from '../walk/print.ts';
import { summaryOf } from '../walk/summary.ts';

export const walk: Command = {
  name: 'walk',
  summary: 'walk a procedure step by step, with the required state after each, or tell what the proof says',
  operands: ['[procedure]'],
  options: [
    { name: 'library', value: 'FOLDER', help: 'the library it stands in (here, if not given)' },
    { name: 'model', value: 'M', help: 'a model, or a variant as the proof names it (the first one, if not given)' },
    { name: 'outcome', value: 'X=Y', many: true, help: '"drift=over", "the seal is torn=yes"; several times: readings in turn' },
    { name: 'all', help: 'no walk, but verdicts, states looked at, steps nobody reaches, shortest unsafe walks' },
    { name: 'visit', value: 'SYMPTOM', help: 'the procedures of a symptom in turn, instead of one procedure' },
    { name: 'graph', value: 'FILE', help: 'also draw the graph of the steps with their required states as SVG' },
  ],
  about:
    'Walks as the proof does. A question nobody answered is taken as "within the limits", "passes" or "no", and marked as assumed. Exit 0: no rule is broken on the walk (with --all: on any). Exit 1: one is. Exit 2: it could not run, or an outcome that was given was never asked for.',
  examples: [
    { line: 'handsclear walk OM-3140 --library sample-procedures --model DL-25 --outcome "lip drift=over"', does: 'one walk' },
    { line: 'handsclear walk OM-3140 --library sample-procedures --all --graph lip.svg', does: 'verdicts, and a drawing' },
    { line: 'handsclear walk --visit "bale is soft" --library sample-procedures --model VB-20', does: 'a visit' },
  ],
  async run({ operands, values, flags }, io) {
    fitTogether({ operands, values, flags });
    const checked = await openLibrary(values.library ?? '.', io);
    const { facts } = checked;
    const answers = answersFrom((values.outcome ?? '').split('\n').filter((one) => one !== ''));
    const others = (number: string) => facts.procedures.find(({ head }) => head.id === number)?.read;
    const registers: Registers = facts.registers;
    if (values.visit !== undefined) {
      const symptom = symptomNamed(facts, values.visit);
      const procedures = symptom.procedures.flatMap(({ number }) => facts.procedures.find(({ head }) => head.id === number) ?? []);
      const machine = machineFor(procedures, values.model, facts);
      const reads = procedures
        .filter((one) => one.machines.some(({ variant }) => variant.name === machine.variant.name))
        .map(({ read }) => read);
      const walker = walkerOf({ procedures: reads, registers, others }, compileVisit(reads, others), machine, 'closed');
      const printed = printWalk(walker, answers, wordsOf(facts));
      io.out(`Visit for "${symptom.name}" on ${machine.variant.name}: ${reads.map(({ head }) => head.id).join(', ')}\n\n${printed.text}`);
      io.out(beyond(checked, procedures, io));
      return ending(printed, answers);
    }
    const asked = operands[0];
    if (asked === undefined) throw new CannotRun('walk wants a procedure, or --visit SYMPTOM.');
    const procedure = procedureNamed(checked, asked, io);
    if (procedure === undefined) throw notThere(facts, asked, 'procedure');
    const program = compile({ procedure: procedure.read, others });
    if (values.graph !== undefined) {
      const draft = blocking(checked, new Set([procedure.file])).length > 0;
      writeWhole({ cwd: io.cwd, library: checked.disk.root }, values.graph, graphSvg(procedure, program, draft), 'SVG');
      io.err(`${values.graph} written.\n`);
    }
    if (flags.has('all')) {
      io.out(summaryOf(procedure));
      io.out(beyond(checked, [procedure], io));
      return procedure.flow.verdicts.every(({ verdict }) => verdict === 'proved') ? 0 : 1;
    }
    const machine = machineFor([procedure], values.model, facts);
    const walker = walkerOf({ procedures: [procedure.read], registers, others }, program, machine, procedure.head.startsWith);
    const printed = printWalk(walker, answers, wordsOf(facts));
    io.out(`${procedure.head.id} ${procedure.head.title}, on ${machine.variant.name}\n\n${printed.text}`);
    io.out(beyond(checked, [procedure], io));
    return ending(printed, answers);
  },
};

/** What is asked for together and cannot be done together is refused, because an option that is passed over in silence is taken as done. */
function fitTogether({ operands, values, flags }: Given): void {
  const refuse = (one: string, other: string): never => {
    throw new CannotRun(`${one} and ${other} do not go together. See: handsclear walk --help`);
  };
  if (values.visit !== undefined) {
    if (operands[0] !== undefined) refuse(`A procedure ("${operands[0]}")`, '--visit');
    if (flags.has('all')) refuse('--all', '--visit');
    if (values.graph !== undefined) refuse('--graph', '--visit');
  }
  if (!flags.has('all')) return;
  if (values.outcome !== undefined) refuse('--outcome', '--all, which answers every question both ways,');
  if (values.model !== undefined) refuse('--model', '--all, which tells of every variant,');
}

function ending({ breaches, ended }: PrintedWalk, answers: Answers): ExitCode {
  const [first] = answers.unasked();
  if (first !== undefined)
    throw new CannotRun(
      `Nothing on this walk asks for --outcome "${first}", so this is not the walk you wanted. Asked on it: ${answers.asked().join('; ') || 'nothing'}.`,
    );
  return breaches.some(({ severity }) => severity === 'error') || !ended ? 1 : 0;
}

/** What a walk does not tell: errors that are no matter of walks, and that no walk makes a machine safe. */
function beyond(checked: Checked, walked: readonly ProcedureFacts[], io: Io): string {
  const count = blocking(checked, new Set(walked.map(({ file }) => file))).length;
  const errors =
    count === 0
      ? []
      : wrap(`${count === 1 ? 'An error stands' : `${count} errors stand`} in the way of publishing this. See: handsclear check`, io.width);
  return `\n${[...errors, ...wrap(CAUTION, io.width)].join('\n')}\n`;
}

/** Steps as the guide prints them: references resolved, second values in brackets. */
function wordsOf(facts: LibraryFacts): (file: string, step: LabelledStep) => string {
  const scopes = new Map(
    facts.procedures.map((one) => [one.file, scopeOf(one, { library: facts, figures: new Map(), draft: false }, new Set())]),
  );
  return (file, step) => {
    const scope = scopes.get(file);
    return scope === undefined ? step.step.lead.text : plainOf(inlineOf(step.step.lead, scope, step));
  };
}

function machineFor(procedures: readonly ProcedureFacts[], asked: string | undefined, facts: LibraryFacts): Machine {
  const machines = procedures.flatMap((one) => one.machines);
  const [first] = machines;
  if (first === undefined) throw new CannotRun('This procedure is for no registered model, so there is nothing to walk on.');
  if (asked === undefined) return first;
  const exact = machines.find(({ variant }) => variant.name.toLowerCase() === asked.toLowerCase());
  if (exact) return exact;
  const model = modelNamed(facts, asked);
  const found = machines.find(({ variant }) => variant.model === model);
  if (found) return found;
  throw new CannotRun(`It is not for ${model}. It is for: ${[...new Set(machines.map(({ variant }) => variant.name))].join(', ')}.`);
}

function symptomNamed(facts: LibraryFacts, typed: string): Symptom {
  const { symptoms } = facts.registers;
  const folded = typed.toLowerCase();
  const found = symptoms.find(({ name, aliases }) => [name, ...aliases].some((one) => one.toLowerCase() === folded));
  if (found) return found;
  const names = symptoms.map(({ name }) => name);
  const near = nearest(typed, names);
  throw new CannotRun(
    `No symptom is called "${typed}".${near ? ` Did you mean "${near}"?` : ''} There are: ${names.join('; ') || 'none'}.`,
  );
}
