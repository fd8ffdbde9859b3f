/**
 * One walk, step by step: where it stands, what it has to be told to go on, and the state of the machine. Small enough to stand alone;
 * decides nothing that the search does not decide the same way.
 */
import type { LabelledStep } from '../numbering/index.ts';
import type { Action } from '../reading/index.ts';
import type { Machine } from '../registers/index.ts';
import type { EndKind, Program } from './code.ts';
import { waysOf } from './decide.ts';
import type { Breach } from './effects/doing.ts';
import { act } from './effects/effects.ts';
import { askAtEnd } from './ends.ts';
import type { SettingInput } from './setting.ts';
import { settingOf } from './setting.ts';
import type { SolveInput } from './solve.ts';
import type { Layout, State } from './state.ts';

export interface WalkPosition {
  readonly node: number;
  readonly state: State;
  readonly stop: WalkStop;
  /** Rules broken since the position before. */
  readonly breaches: readonly Breach[];
  /** What was done since the position before. */
  readonly done: readonly Action[];
}

export type WalkStop =
  /** This step comes next; going on does it. */
  | { readonly kind: 'step'; readonly step: LabelledStep; readonly file: string }
  /** Going on wants an answer. `until`: the question of a repeat. */
  | { readonly kind: 'question'; readonly text: string; readonly subject: string | undefined; readonly outcome: string | undefined }
  | { readonly kind: 'end'; readonly end: EndKind | 'visit' };

export interface Walker {
  readonly layout: Layout;
  readonly start: () => WalkPosition;
  /** `answer` is used at a question only. */
  readonly next: (from: WalkPosition, answer?: boolean) => WalkPosition;
}

export function walkerOf(input: SettingInput, program: Program, machine: Machine, startsWith: string): Walker {
  const setting = settingOf(input, program, machine, startsWith);
  return {
    layout: setting.layout,
    start: () => run(setting, program.entry, setting.start, []),
    next(from, answer = false) {
      const instruction = program.code[from.node];
      if (instruction?.op === 'step') return run(setting, instruction.next, from.state, []);
      if (instruction?.op !== 'branch') return from;
      const ways = waysOf(instruction.condition, setting.layout, from.state, setting.variant, setting.possible);
      const way = ways === 'unmeasured' ? undefined : ways.find(({ holds }) => holds === answer);
      return run(setting, answer ? instruction.yes : instruction.no, way?.state ?? from.state, []);
    },
  };
}

/** Instructions that need nobody, in a circle without a step or question, would go on for ever. */
const MOST_SILENT = 10_000;

/** Goes on through what needs nobody, up to the next step, question or end. */
function run(setting: SolveInput, from: number, begun: State, told: readonly Breach[]): WalkPosition {
  const { program, layout } = setting;
  const breaches = [...told];
  const actions: Action[] = [];
  let node = from;
  let state = begun;
  const at = (stop: WalkStop): WalkPosition => ({ node, state, stop, breaches, done: actions });
  for (let silent = 0; silent < MOST_SILENT; silent += 1) {
    const instruction = program.code[node];
    if (!instruction) return at({ kind: 'end', end: 'normal' });
    switch (instruction.op) {
      case 'step':
        return at({ kind: 'step', step: instruction.at, file: instruction.place.file });
      case 'act': {
        const done = act(layout, state, setting.doingOf(instruction));
        breaches.push(...done.breaches);
        actions.push(instruction.action);
        state = done.state;
        node = instruction.next;
        break;
      }
      case 'branch': {
        const { condition } = instruction;
        const ways = waysOf(condition, layout, state, setting.variant, setting.possible);
        if (ways === 'unmeasured' && instruction.ifKnown) {
          node = instruction.no;
          break;
        }
        const [only] = ways === 'unmeasured' ? [] : ways;
        if (ways !== 'unmeasured' && ways.length === 1 && only !== undefined) {
          state = only.state;
          node = only.holds ? instruction.yes : instruction.no;
          break;
        }
        const subject = condition.kind === 'outcome' ? condition.subject : undefined;
        const outcome = condition.kind === 'outcome' ? condition.outcome : undefined;
        return at({ kind: 'question', text: condition.text, subject, outcome });
      }
      case 'end':
        breaches.push(...askAtEnd(layout, state, instruction.end, instruction.endsWith));
        return at({ kind: 'end', end: instruction.end });
      case 'between':
        if (instruction.number === undefined) return at({ kind: 'end', end: 'visit' });
        node = instruction.next;
        break;
      case 'violation':
        breaches.push({ rule: instruction.rule, thing: instruction.thing, missing: instruction.missing, bits: [], severity: 'error' });
        node = instruction.next;
        break;
      default:
        node = instruction.next;
    }
  }
  return at({ kind: 'end', end: 'normal' });
}
