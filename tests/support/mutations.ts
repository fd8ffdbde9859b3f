/**
 * Slips a writer makes, done to a sound procedure: one operator an entry, each giving every place where it can be made, with the
 * check that must find it and the line where. Steps are taken out with the rest renumbered and references repaired.
 * Whether a slip that no rule tells is one at all is not said here: the naive checker decides (naive-library.ts).
 * Long because the operators are one list, read as a whole.
 */
import {
  type Action,
  applyEdits,
  eachAction,
  eachNotice,
  type LabelledStep,
  type ProcedureFacts,
  positionAt,
  type Registers,
  removeStep,
} from '../../procedures-schema/index.ts';

export interface Mutant {
  readonly operator: string;
  readonly file: string;
  readonly text: string;
  /** For people: what was done where. */
  readonly what: string;
  /** Any of these must fire ... */
  readonly checks: readonly string[];
  /** ... on a line of the mutant that holds these words; undefined: anywhere in the file. */
  readonly at?: RegExp;
  /** Errors that may come along. */
  readonly along: readonly string[];
}

export type Made = Omit<Mutant, 'operator' | 'file'>;
/** A place that an operator passes by, and why. */
export interface Skipped {
  readonly skipped: string;
}
export type Operator = (facts: ProcedureFacts, registers: Registers) => Iterable<Made | Skipped>;

const escaped = (text: string): RegExp => new RegExp(text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/s?$/, ''), 'i');

function without(facts: ProcedureFacts, step: LabelledStep, registers: Registers): string {
  const edits = removeStep(facts.tree, step.step, registers.house.numbering);
  return applyEdits(facts.source.text, edits);
}

const replaced = (text: string, start: number, end: number, by: string): string => text.slice(0, start) + by + text.slice(end);

/** Steps all of whose actions are of these kinds, so that taking one out takes out nothing else. */
function* stepsOnly(
  facts: ProcedureFacts,
  kinds: readonly string[],
): Iterable<{ at: LabelledStep; actions: readonly Action[]; more: boolean }> {
  for (const read of facts.read.steps) {
    const all = [read, ...read.children.flatMap((child) => (child.kind === 'substeps' ? child.steps : []))];
    for (const { at, lead, children } of all) {
      const actions = lead.sentences.flatMap((sentence) => sentence.actions);
      if (!actions.some((action) => kinds.includes(action.kind))) continue;
      yield { at, actions, more: children.length > 0 || !actions.every((action) => kinds.includes(action.kind)) };
    }
  }
}

/** What a procedure that ends locked out owes is asked at its end, by its callers and by the visit. */
// A heading that names what no step does any more says so too.
const OWED = ['end-as-said', 'start-established', 'visit-holds', 'hidden-order'];
const MORE: Skipped = { skipped: 'the step does more than this' };

function* dropSteps(
  facts: ProcedureFacts,
  registers: Registers,
  kinds: readonly string[],
  rest: Pick<Mutant, 'checks' | 'along'>,
): Iterable<Made | Skipped> {
  for (const { at, more } of stepsOnly(facts, kinds))
    yield more ? MORE : { text: without(facts, at, registers), what: `${at.fullLabel}: ${at.step.lead.text}`, ...rest };
}

/** Whether the step is where the value is read, so that a range that ends before it does not hold it. */
const measuring = (facts: ProcedureFacts, step: LabelledStep): boolean =>
  [...eachAction(facts.read)].some((one) => one.step === step && (one.action.kind === 'measure' || one.action.kind === 'sense'));

const lineOf = (facts: ProcedureFacts, offset: number): string =>
  facts.source.text.split('\n')[positionAt(facts.source, offset).line - 1] ?? '';

export const OPERATORS: Readonly<Record<string, Operator>> = {
  *'drop a tool'(facts) {
    for (const entry of facts.head.tools) {
      const text = facts.source.text;
      const start = text.lastIndexOf('\n', entry.span.start) + 1;
      let end = text.indexOf('\n', entry.span.end) + 1;
      while (/^ {4}\S/.test(text.slice(end))) end = text.indexOf('\n', end) + 1;
      yield {
        text: replaced(text, start, end, ''),
        what: entry.name,
        checks: ['tool-not-listed'],
        at: escaped(entry.name.split(' ').at(-1) ?? ''),
        along: [],
      };
    }
  },
  *'drop a refit'(facts, registers) {
    for (const { at, actions, more } of stepsOnly(facts, ['close'])) {
      if (more) {
        yield MORE;
        continue;
      }
      const kinds = actions.flatMap((action) => action.things.map(({ thing }) => thing.kind));
      yield {
        text: without(facts, at, registers),
        what: `${at.fullLabel}: ${at.step.lead.text}`,
        // What a procedure that ends locked out leaves open is handed on, and asked for by the visit.
        checks: [
          ...(kinds.includes('cover') ? ['covers-before-live', 'cover-refitted'] : ['part-refitted', 'fastener-tight', 'part-not-used']),
          'visit-holds',
        ],
        along: ['cover-refitted', 'covers-before-live', 'proof-again', ...OWED],
      };
    }
  },
  *'drop a torque'(facts) {
    for (const { action, prose, span } of eachAction(facts.read)) {
      if (action.kind !== 'tighten' || action.stage === 'hand' || action.amounts.length === 0) continue;
      const source = facts.source.text.slice(span.start, facts.source.text.indexOf('\n', span.start));
      const cut = source.replace(/ to [\d.]+ (?:N·m|lbf·in|lbf·ft)(?: \[[^\]]*\])?/, '');
      if (cut === source) continue;
      yield {
        text: replaced(facts.source.text, span.start, span.start + source.length, cut),
        what: prose.text,
        checks: ['torque-as-registered'],
        at: /tighten/i,
        along: [],
      };
    }
  },
  *'drop a lock'(facts, registers) {
    yield* dropSteps(facts, registers, ['lock', 'tag'], {
      checks: ['hands-locked', 'plug-kept', 'closes-what-is-open', 'end-as-said'],
      along: OWED,
    });
  },
  *'drop a try-out'(facts, registers) {
    yield* dropSteps(facts, registers, ['try-out', 'prove'], {
      checks: ['hands-proved', 'proof-again', 'end-as-said'],
      along: ['proof-again', ...OWED],
    });
  },
  *'drop a relief'(facts, registers) {
    yield* dropSteps(facts, registers, ['relieve', 'restrain'], {
      checks: ['hands-relieved', 'end-as-said', 'start-established'],
      along: ['hands-relieved', 'proof-in-order', ...OWED],
    });
  },
  *'drop a people-clear'(facts, registers) {
    yield* dropSteps(facts, registers, ['clear-people'], { checks: ['people-clear', 'clear-before-try'], along: [] });
  },
  *'drop an outcome'(facts) {
    for (const step of facts.read.steps)
      for (const child of step.children) {
        if (child.kind !== 'branches') continue;
        for (const { branch, condition } of child.branches) {
          if (!condition.when?.some((one) => one.kind === 'outcome')) continue;
          const text = facts.source.text;
          const start = text.lastIndexOf('\n', branch.span.start) + 1;
          const end = text.indexOf('\n', branch.span.end - 1) + 1;
          yield {
            text: replaced(text, start, end, ''),
            what: `${step.at.fullLabel}: ${branch.condition.text}`,
            checks: ['outcome-answered'],
            along: ['section-form', 'aside-entered', 'step-reached', 'never-reached'],
          };
        }
      }
  },
  *'swap limits'(facts) {
    const { text } = facts.source;
    for (const match of text.matchAll(/\{lower: ([^,}]+), upper: ([^,}]+)\}/g)) {
      if (match[1] === match[2]) continue;
      const by = `{lower: ${match[2]}, upper: ${match[1]}}`;
      yield {
        text: replaced(text, match.index, match.index + match[0].length, by),
        what: match[0],
        checks: ['limits-ordered'],
        along: ['limits-restated'],
      };
    }
    for (const match of text.matchAll(/^\| (\w+-\d+) \| ([^|]+) \| ([^|]+) \|$/gm)) {
      if (match[2] === match[3] || !/\d/.test(match[2] ?? '')) continue;
      const by = `| ${match[1]} | ${match[3]} | ${match[2]} |`;
      yield {
        text: replaced(text, match.index, match.index + match[0].length, by),
        what: match[0],
        checks: ['limits-ordered'],
        at: escaped(match[1] ?? ''),
        along: ['limits-restated'],
      };
    }
  },
  *'wrong unit'(facts) {
    const { text } = facts.source;
    const other = { mm: 'N', bar: 'mm', '°C': 'bar', N: 'mm', s: 'mm', V: 'mm', N·m: 'mm', '%': 'mm', K: 'bar' } as Record<string, string>;
    for (const match of text.matchAll(/(lower|upper): (-?[\d.]+) (mm|bar|°C|N·m|N|s|V|K)(?=[,}])/g)) {
      const to = other[match[3] ?? ''];
      if (to === undefined) continue;
      yield {
        text: replaced(text, match.index, match.index + match[0].length, `${match[1]}: ${match[2]} ${to}`),
        what: `${lineOf(facts, match.index)} -> ${to}`,
        checks: ['limits-quantity', 'limits-ordered', 'limits-cover'],
        // Limits of another quantity are none: what they proved is not proved either.
        along: [
          'limits-quantity',
          'limits-ordered',
          'limits-cover',
          'instrument-fits',
          'limits-restated',
          'hands-proved',
          'hands-relieved',
          'end-as-said',
        ],
      };
    }
    for (const { action, span } of eachAction(facts.read)) {
      if (action.kind !== 'tighten' || action.amounts.length === 0) continue;
      const source = facts.source.text.slice(span.start, span.end);
      const at = source.indexOf('N·m');
      if (at < 0) continue;
      yield {
        text: replaced(text, span.start + at, span.start + at + 3, 'N'),
        what: source,
        checks: ['limits-quantity', 'torque-as-registered'],
        at: /tighten/i,
        along: ['limits-quantity', 'torque-as-registered', 'torque-reached', 'dual-agree'],
      };
    }
  },
  *'move a notice after its step'(facts) {
    for (const { notice, section, step, heading } of eachNotice(facts.tree.sections)) {
      if (step !== undefined || notice.form !== 'fence') continue;
      const at = section.blocks.indexOf(notice);
      const next = section.blocks.slice(at + 1).find((block) => block.kind === 'steps');
      if (next?.kind !== 'steps') continue;
      const { text } = facts.source;
      const own = text.slice(notice.span.start, notice.span.end);
      // A notice under the heading guards the section, so it goes behind its last step; another behind the one it guards.
      const lists = section.blocks.filter((block) => block.kind === 'steps');
      const guarded = heading ? lists.at(-1)?.steps.at(-1) : next.steps[0];
      if (guarded === undefined) continue;
      const place = text.indexOf('\n', guarded.span.end - 1) + 1;
      const moved = `${text.slice(0, notice.span.start)}${text.slice(notice.span.end, place)}\n${own}\n\n${text.slice(place)}`;
      yield {
        text: moved,
        what: `${section.title}: ${own.slice(0, 60)}`,
        checks: ['notice-place'],
        at: /^:::/,
        along: ['label-as-typed', 'covers-before-live'],
      };
    }
  },
  *'grade a notice wrong'(facts) {
    const wrong = { danger: 'caution', warning: 'notice', caution: 'danger', notice: 'danger' } as const;
    for (const { notice } of eachNotice(facts.tree.sections)) {
      const { wordSpan, word } = notice;
      const typed = facts.source.text.slice(wordSpan.start, wordSpan.end);
      const by = typed === typed.toUpperCase() ? wrong[word].toUpperCase() : wrong[word];
      yield {
        text: replaced(facts.source.text, wordSpan.start, wordSpan.end, by),
        what: `${typed} -> ${by}: ${facts.source.text.slice(notice.span.start, notice.span.start + 90).replace(/\s+/g, ' ')}`,
        checks: ['notice-grade'],
        at: new RegExp(by, 'i'),
        along: ['people-clear'],
      };
    }
  },
  *'misspell a name'(facts) {
    const { text } = facts.source;
    for (const { step } of facts.read.labels.steps)
      for (const mark of step.lead.marks) {
        if (mark.kind !== 'reference' || mark.form.kind !== 'name') continue;
        const { content } = mark;
        const middle = Math.floor(content.length / 2);
        if (!/^[a-z]{2}$/i.test(content.slice(middle - 1, middle + 1)) || content[middle] === content[middle - 1]) continue;
        const by = `${content.slice(0, middle - 1)}${content[middle]}${content[middle - 1]}${content.slice(middle + 1)}`;
        const start = text.indexOf(content, mark.span.start);
        if (start !== mark.span.start + 1) continue;
        yield {
          text: replaced(text, start, start + content.length, by),
          what: `${content} -> ${by}`,
          checks: ['names-known'],
          at: escaped(by),
          along: ['*'],
        };
      }
  },
  *'narrow a variant'(facts) {
    // One model's branch or table row is taken out: that model is left without an answer.
    const { text } = facts.source;
    for (const match of text.matchAll(/^\| (\w+-\d+) \|.*\n/gm))
      yield {
        text: replaced(text, match.index, match.index + match[0].length, ''),
        what: match[0].trim(),
        checks: ['limits-cover'],
        along: [],
      };
  },
  *'typed reference off by one'(facts) {
    // In a repeat the words say what must be inside, so one step off is known to be wrong.
    const { text } = facts.source;
    for (const { action, prose, span, step } of eachAction(facts.read)) {
      const { target } = action;
      if (action.kind !== 'repeat' || target === undefined || action.until === undefined) continue;
      const end = text.indexOf('\n', span.start);
      const source = text.slice(span.start, end);
      const { byId } = facts.read.labels;
      if (target.kind === 'steps-id') {
        const [from, to] = [byId.get(target.from), byId.get(target.to)];
        if (from === undefined || to === undefined || to.path.length !== 1 || !measuring(facts, to)) continue;
        const last = facts.read.labels.steps.find(
          (one) => one.section === to.section && one.path.length === 1 && one.path[0] === (to.path[0] ?? 0) - 1,
        );
        if (last === undefined) continue;
        const by = source.replace(/\[steps [^\]]*\]/, `steps ${from.label} to ${last.label}`);
        yield { text: replaced(text, span.start, end, by), what: prose.text, checks: ['repeat-measures'], at: /repeat/i, along: ['*'] };
      } else if (target.kind === 'step-id' && !/from/.test(source)) {
        const meant = byId.get(target.id);
        for (const off of [-1, 1]) {
          const other = facts.read.labels.steps.find(
            (one) => one.section === meant?.section && one.path.length === 1 && one.path[0] === (meant?.path[0] ?? 0) + off,
          );
          if (other === undefined || meant === undefined || meant.path.length !== 1 || other === step) continue;
          const by = source.replace(/\[step [^\]]*\]/, `step ${other.label}`);
          yield {
            text: replaced(text, span.start, end, by),
            what: `${prose.text} -> ${other.label}`,
            checks: ['repeat-measures'],
            at: /repeat/i,
            along: ['*'],
          };
        }
      }
    }
  },
};

export interface Mutants {
  readonly list: readonly Mutant[];
  /** Why places were passed by, and how many. */
  readonly skipped: ReadonlyMap<string, number>;
}

/** Every place where one of the operators can be used. */
export function allMutants(
  operator: string,
  procedures: readonly ProcedureFacts[],
  registers: Registers,
  operators: Readonly<Record<string, Operator>> = OPERATORS,
): Mutants {
  const make = operators[operator] as Operator;
  const list: Mutant[] = [];
  const skipped = new Map<string, number>();
  for (const facts of procedures)
    for (const one of make(facts, registers))
      if ('skipped' in one) skipped.set(one.skipped, (skipped.get(one.skipped) ?? 0) + 1);
      else list.push({ ...one, operator, file: facts.file });
  return { list, skipped };
}

export function mutantsOf(operator: string, procedures: readonly ProcedureFacts[], registers: Registers): readonly Mutant[] {
  return allMutants(operator, procedures, registers).list;
}
