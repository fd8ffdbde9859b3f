/**
 * One walk as a technician makes it, as plain frames to be played beside the text: each step in turn with the required state, up to the
 * next question. A page keeps the answers and asks again with one more; nothing is remembered here.
 */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import type { Span, WalkAnswer } from '../finding.ts';
import { compile, type ToldState, tellState, walkerOf } from '../flow/index.ts';
import { positionAt } from '../format/index.ts';
import type { LabelledStep } from '../numbering/index.ts';
import { decimalMarkOf } from '../quantities/index.ts';
import { both, NO_WAIT, saidWait, type Waited, type WaitSum, waitOf } from './wait-time.ts';

export interface WalkFrame {
  readonly file: string;
  readonly span: Span;
  readonly line: number;
  readonly section: string;
  readonly label: string;
  readonly text: string;
  /** Required when the step has been done. */
  readonly state: ToldState;
  /** What was asked after it, and answered. */
  readonly answers?: readonly WalkAnswer[];
  /** Waited in this step; absent where nothing is waited for. */
  readonly wait?: Waited;
  /** Waited from the beginning to its end. */
  readonly waited: Waited;
  /** Rules broken by doing it: "H-locked: mains supply (main isolator)". */
  readonly broken: readonly string[];
}

export interface WalkSoFar {
  readonly variant: string;
  readonly start: ToldState;
  /** What the procedure says that it takes. */
  readonly time?: string;
  readonly frames: readonly WalkFrame[];
  /** What must be answered to go on; absent at an end. */
  readonly question?: { readonly text: string; readonly frame: number };
  readonly end?: string;
}

/** More turns than any walk somebody would make; a walk that never ends is cut there and says so. */
const LONGEST = 2_000;

/** `answers` are yes or no, in the order in which the questions come. Undefined: the procedure has no such variant. */
export function walkFrames(
  facts: ProcedureFacts,
  library: LibraryFacts,
  variant: string,
  answers: readonly boolean[],
  /** The words of a step as they are printed; else as they were read. */
  wordsOf: (facts: ProcedureFacts, step: LabelledStep) => string = (_, { step }) => step.lead.text,
): WalkSoFar | undefined {
  const machine = facts.machines.find((one) => one.variant.name === variant);
  if (!machine) return undefined;
  const others = (number: string) => library.procedures.find(({ head }) => head.id === number)?.read;
  const input = { procedure: facts.read, others, registers: library.registers };
  const walker = walkerOf(
    { procedures: [facts.read], registers: library.registers, others },
    compile(input),
    machine,
    facts.head.startsWith,
  );
  const told = (state: Parameters<typeof tellState>[1]): ToldState => tellState(walker.layout, state);
  const frames: WalkFrame[] = [];
  let at = walker.start();
  const start = told(at.state);
  const { time } = facts.head;
  const head = { variant, start, ...(time === undefined ? {} : { time }) };
  let asked = 0;
  const mark = decimalMarkOf(library.registers.house.language);
  // Before the step at hand, and in it.
  let waited: WaitSum = NO_WAIT;
  let step: WaitSum = NO_WAIT;
  for (let turn = 0; turn < LONGEST; turn += 1) {
    const { stop } = at;
    if (stop.kind === 'end') return { ...head, frames, end: stop.end };
    if (stop.kind === 'question') {
      const answer = answers[asked];
      const text = stop.text.replace(/[.,:]+$/, '');
      if (answer === undefined) return { ...head, frames, question: { text, frame: frames.length - 1 } };
      asked += 1;
      at = walker.next(at, answer);
      const last = frames.at(-1);
      // What hangs on the answer is done in the step that asked.
      step = both(step, waitOf(at.done, mark));
      if (last)
        frames[frames.length - 1] = {
          ...last,
          ...timesOf(waited, step),
          state: told(at.state),
          answers: [...(last.answers ?? []), { asked: text, yes: answer }],
          broken: [...last.broken, ...brokenIn(at.breaches)],
        };
      continue;
    }
    const { step: labelled, file } = stop;
    at = walker.next(at);
    waited = both(waited, step);
    step = waitOf(at.done, mark);
    const own = library.procedures.find((one) => one.file === file) ?? facts;
    const span = { start: labelled.step.span.start, end: labelled.step.lead.span.end };
    frames.push({
      file,
      span,
      line: positionAt(own.source, span.start).line,
      section: labelled.section.title,
      label: labelled.label,
      text: wordsOf(own, labelled),
      state: told(at.state),
      ...timesOf(waited, step),
      broken: brokenIn(at.breaches),
    });
  }
  return { ...head, frames, end: `cut after ${LONGEST} turns` };
}

function timesOf(before: WaitSum, step: WaitSum): Pick<WalkFrame, 'wait' | 'waited'> {
  const own = saidWait(step);
  return { ...(own.time === '' && !own.open ? {} : { wait: own }), waited: saidWait(both(before, step)) };
}

const brokenIn = (breaches: readonly { readonly rule: string; readonly thing: string; readonly missing: readonly string[] }[]): string[] =>
  breaches.map(({ rule, thing, missing }) => `${rule}: ${thing}${missing.length > 0 ? ` (${missing.join(', ')})` : ''}`);
