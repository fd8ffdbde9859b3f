/**
 * Readings said outright (F14): what may be said of a step, the edit that says it, and the list of all of them for sign-off. What a
 * reading then means is the reader's; a lock, a try-out or clear people can never be said so.
 */
import { eachReading, type LibraryFacts, type ProcedureFacts } from '../checks/index.ts';
import type { Span, TextEdit } from '../finding.ts';
import { positionAt } from '../format/index.ts';
import { mayBeSaidOf, OVERRIDE_VERBS, type SaidOutright, saidOutright, sentenceKey } from '../reading/index.ts';
import type { PointRole, Thing } from '../registers/index.ts';
import type { Proposal } from './model.ts';
import { proposalOf, textsOf } from './proposals.ts';
import { textKey } from './text-key.ts';

export interface OverrideSaid {
  readonly file: string;
  readonly line: number;
  readonly span: Span;
  readonly fullLabel: string;
  /** The sentence that it is said of. */
  readonly sentence: string;
  readonly reads: string;
  readonly because: string;
  readonly by: string;
  /** Of the sentence and what is said of it: a sign-off that keeps the key sees when either changed. */
  readonly key: string;
  /** Reason or initials are missing, or the reading is none that can be said. */
  readonly wanting: readonly string[];
}

const WANTING: Readonly<Record<SaidOutright['amiss'][number], string>> = {
  reason: 'It gives no reason.',
  initials: 'It carries no initials.',
  unbound: 'It is not bound to its words.',
  stale: 'The words have changed since it was said.',
};

export function overridesOf(library: LibraryFacts): readonly OverrideSaid[] {
  return library.procedures.flatMap(overridesIn);
}

export function overridesIn(facts: ProcedureFacts): readonly OverrideSaid[] {
  return facts.read.labels.steps.flatMap((at): OverrideSaid[] => {
    const said = saidOutright(at.step.attributes, at.step.lead.text);
    if (!said) return [];
    const { reads, because, by, span, amiss } = said;
    const first = eachReading(facts.read).find(({ step, kind }) => step === at && kind === 'lead')?.reading.sentences[0];
    const sentence = first?.text ?? at.step.lead.text;
    return [
      {
        file: facts.file,
        line: positionAt(facts.source, span.start).line,
        span,
        fullLabel: at.fullLabel,
        sentence,
        reads,
        because,
        by,
        key: textKey(`${sentence}|${reads}|${because}|${by}`),
        wanting: [
          ...amiss.map((kind) => WANTING[kind]),
          ...(amiss.length === 0 && first?.status === 'unread' ? [`"${reads}" is no reading that can be said outright.`] : []),
        ],
      },
    ];
  });
}

/** What may be said of a step: of each thing that it names the verbs that can be done to it, the likeliest first and tools last; then "nothing". */
export function readingChoices(facts: ProcedureFacts, line: number): readonly string[] {
  const at = stepOn(facts, line);
  if (!at) return [];
  const named = eachReading(facts.read)
    .filter(({ step }) => step === at)
    .flatMap(({ reading }) => reading.sentences.flatMap(({ mentions }) => mentions.map(({ thing }) => thing)));
  const things = [...new Map(named.map((thing) => [thing.name, thing])).values()];
  const inOrder = [...things.filter(({ kind }) => kind !== 'tool'), ...things.filter(({ kind }) => kind === 'tool')];
  const said = inOrder.flatMap((thing) =>
    Object.keys(OVERRIDE_VERBS).flatMap((verb) => (isSense(verb, thing, facts) ? [`${verb} ${thing.name}`] : [])),
  );
  return [...said, 'nothing'];
}

/** What a point must be there for, so that a drain is not said to isolate. */
const ROLES: Readonly<Record<string, PointRole>> = {
  isolates: 'isolate',
  restores: 'isolate',
  relieves: 'relieve',
  restrains: 'restrain',
};

/** Whether the verb can be done to the thing, as the registers and the front matter know it. */
function isSense(verb: string, thing: Thing, facts: ProcedureFacts): boolean {
  if (!mayBeSaidOf(verb, thing.kind)) return false;
  const role = ROLES[verb];
  if (thing.kind === 'point' && role !== undefined)
    return facts.machines.some(({ points }) => points.some(({ name, roles }) => name === thing.name && roles.includes(role)));
  if (thing.kind === 'measurement' && verb !== 'adjusts') {
    const sensed = facts.head.measurements.find(({ name }) => name === thing.name)?.sensed !== undefined;
    return sensed === (verb === 'senses');
  }
  return true;
}

function stepOn(facts: ProcedureFacts, line: number) {
  return facts.read.labels.steps.find(({ step }) => positionAt(facts.source, step.typed.span.start).line === line);
}

/** Says outright how the step whose label stands on that line is read. Refused without a reason, initials, or a reading that may be said. */
export function acceptReading(
  facts: ProcedureFacts,
  library: LibraryFacts,
  line: number,
  said: { readonly reads: string; readonly because: string; readonly by: string },
): Proposal {
  const at = stepOn(facts, line);
  if (!at) return { ok: false, reason: 'No step begins on this line.' };
  const [verb = '', ...rest] = said.reads.trim().split(/\s+/);
  const thing = rest.join(' ');
  if (!Object.hasOwn(OVERRIDE_VERBS, verb))
    return { ok: false, reason: `"${verb}" cannot be said outright; known are ${Object.keys(OVERRIDE_VERBS).join(', ')}.` };
  const things = facts.names.lookup(thing);
  if (thing !== '' && things.length === 0) return { ok: false, reason: `"${thing}" is not a registered name.` };
  if (thing !== '' && verb !== 'nothing' && !things.some((one) => isSense(verb, one, facts)))
    return { ok: false, reason: `"${verb}" cannot be said of ${thing}: the registers know it as no such thing.` };
  if (said.because.trim() === '') return { ok: false, reason: 'A reading that is said outright needs its reason.' };
  if (!/^\p{L}{1,6}$/u.test(said.by)) return { ok: false, reason: 'Sign with initials: one to six letters.' };
  const values = { reads: [verb, ...rest].join(' '), because: said.because.trim(), by: said.by, of: sentenceKey(at.step.lead.text) };
  if (Object.values(values).some((value) => /["{}\r\n\u201c\u201d]/.test(value)))
    return { ok: false, reason: 'Quotes and braces cannot stand in it.' };
  return proposalOf(`Say outright that step ${at.fullLabel} ${values.reads}`, saying(facts, at.step, values), textsOf(library));
}

function saying(
  facts: ProcedureFacts,
  step: (typeof facts.read.labels.steps)[number]['step'],
  values: Readonly<Record<'reads' | 'because' | 'by' | 'of', string>>,
): readonly TextEdit[] {
  const { file } = facts;
  const written = (key: keyof typeof values): string => `${key}=${/^[\w-]+$/.test(values[key]) ? values[key] : `"${values[key]}"`}`;
  const keys = Object.keys(values) as (keyof typeof values)[];
  const braces = step.attributes;
  if (!braces) {
    const at = step.lead.span.start;
    return [{ file, start: at, end: at, text: `{${keys.map(written).join(' ')}} ` }];
  }
  const missing: string[] = [];
  const edits: TextEdit[] = [];
  for (const key of keys) {
    const entry = braces.entries.find((one) => one.key === key);
    if (entry) edits.push({ file, start: entry.span.start, end: entry.span.end, text: written(key) });
    else missing.push(written(key));
  }
  const end = braces.span.end - 1;
  if (missing.length > 0)
    edits.push({ file, start: end, end, text: `${/\s$/.test(facts.source.text.slice(0, end)) ? '' : ' '}${missing.join(' ')}` });
  return edits;
}
