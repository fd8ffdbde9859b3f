/**
 * The margin of a procedure: beside each step its computed label, how its sentences were read, the required state, hands, and names to
 * settle. Puts together what other stages found; findings stand in the margin by themselves.
 */
import { eachReading, type LibraryFacts, type ProcedureFacts, type ReadPlace } from '../checks/index.ts';
import { positionAt, proseSpan, type Step } from '../format/index.ts';
import type { LabelledStep } from '../numbering/index.ts';
import { type Action, readingVersion, type Sentence } from '../reading/index.ts';
import { type Family, familiesOf, type Variant } from '../registers/index.ts';
import { type Bands, bandFor } from './bands.ts';
import { handsOf } from './hands.ts';
import { limitLines } from './limit-lines.ts';
import type { Margin, MarginLine, NameToSettle, ReadingStatus, SentenceReading } from './model.ts';
import { namesToSettle } from './names-to-settle.ts';
import { actionWords, conditionWords, earnsSafety } from './reading-words.ts';
import { textKey } from './text-key.ts';

/**
 * `variant` is the name of one of the procedure's variants; absent: the worst of all. `accepted` holds the keys of readings that
 * somebody accepted.
 */
export function marginOf(
  facts: ProcedureFacts,
  library: LibraryFacts,
  variant?: string,
  accepted: ReadonlySet<string> = new Set(),
): Margin {
  const families = familiesOf(facts.head, library.registers);
  const machines = variant === undefined ? facts.machines : facts.machines.filter((machine) => machine.variant.name === variant);
  const bands = bandFor(facts, library, variant);
  const settle = namesToSettle(facts, families);
  const places = new Map<LabelledStep, ReadPlace[]>();
  for (const place of eachReading(facts.read)) {
    const own = places.get(place.step);
    if (own) own.push(place);
    else places.set(place.step, [place]);
  }
  const lines = facts.read.labels.steps.map((at): MarginLine => {
    const own = places.get(at) ?? [];
    const actions = own.flatMap(({ reading }) => reading.sentences.flatMap((sentence) => sentence.actions));
    const { span, typed, id } = at.step;
    return {
      line: positionAt(facts.source, typed.span.start).line,
      endLine: positionAt(facts.source, Math.max(span.start, span.end - 1)).line,
      span,
      label: at.label,
      fullLabel: at.fullLabel,
      typed: typed.marker ? `${typed.marker.raw} ${typed.raw}` : typed.raw,
      section: at.section.title,
      ...(id === undefined ? {} : { id }),
      depth: at.path.length - 1,
      readings: own.flatMap((place) => readingsOf(place, facts, families, accepted)),
      measured: measuredAt(actions, facts, library, variant === undefined ? undefined : machines[0]?.variant),
      ...stateAt(bands, at, facts.read.labels.steps),
      testRun: actions.some((action) => action.kind === 'test-run'),
      hands: handsOf(actions, machines),
      settle: settle.filter((name) => innermost(name, at, facts.read.labels.steps)),
    };
  });
  return {
    file: facts.file,
    variants: facts.flow.verdicts.map(({ variant: name, ...verdict }) => ({ name, ...verdict })),
    ...(variant === undefined ? {} : { variant }),
    lines,
    settle,
  };
}

function measuredAt(
  actions: readonly Action[],
  facts: ProcedureFacts,
  library: LibraryFacts,
  variant: Variant | undefined,
): MarginLine['measured'] {
  const named = actions
    .filter(({ kind }) => kind === 'measure')
    .flatMap(({ things }) => things.flatMap(({ thing }) => (thing.kind === 'measurement' ? thing.name : [])));
  return [...new Set(named)].flatMap((name) => {
    const limits = limitLines(name, facts, library, variant);
    return limits.length === 0 ? [] : [{ name, limits }];
  });
}

function stateAt(bands: Bands, at: LabelledStep, steps: readonly LabelledStep[]): Pick<MarginLine, 'before' | 'after' | 'beside'> {
  const next = steps[at.order + 1];
  return {
    before: bands.begun(at),
    ...(next?.section === at.section ? { after: bands.begun(next) } : {}),
    beside: bands.beside(at),
  };
}

/** Whether the name stands in this step and in none of its substeps. */
function innermost(name: NameToSettle, at: LabelledStep, steps: readonly LabelledStep[]): boolean {
  const inside = (step: Step): boolean => step.span.start <= name.span.start && name.span.start < step.span.end;
  return inside(at.step) && !steps.some((other) => other !== at && other.order > at.order && inside(other.step));
}

function readingsOf(
  place: ReadPlace,
  facts: ProcedureFacts,
  families: readonly Family[],
  accepted: ReadonlySet<string>,
): SentenceReading[] {
  // A condition is one reading of all its words.
  if (place.kind === 'condition') {
    if (place.prose.text === '') return [];
    const conditions = place.reading.when ?? [];
    const unread = conditions.some((condition) => condition.kind === 'unread');
    const words = conditions.map((condition) => `only if ${conditionWords(condition)}`);
    const key = textKey(`${readingVersion}|condition|${place.prose.text}|${words.join('|')}`);
    return [
      {
        span: place.prose.span,
        line: positionAt(facts.source, place.prose.span.start).line,
        text: place.prose.text,
        kind: 'condition',
        status: unread ? 'partly' : 'read',
        words,
        earns: false,
        key,
        accepted: accepted.has(key),
      },
    ];
  }
  return place.reading.sentences.map((sentence) => sentenceReading(sentence, place, facts, families, accepted));
}

function sentenceReading(
  sentence: Sentence,
  place: ReadPlace,
  facts: ProcedureFacts,
  families: readonly Family[],
  accepted: ReadonlySet<string>,
): SentenceReading {
  const span = proseSpan(place.prose, sentence.at, sentence.end);
  const told = toldOf(sentence, families);
  return { ...told, span, line: positionAt(facts.source, span.start).line, kind: place.kind, accepted: accepted.has(told.key) };
}

type Told = Omit<SentenceReading, 'span' | 'line' | 'kind' | 'accepted'>;

/** A sentence that was not edited is the same value as before; what is told of it changes only with the machine. */
const TOLD = new WeakMap<Sentence, { readonly family: Family | undefined; readonly told: Told }>();

function toldOf(sentence: Sentence, families: readonly Family[]): Told {
  const known = TOLD.get(sentence);
  if (known && known.family === families[0]) return known.told;
  const words = [...sentence.actions.map((action) => actionWords(action, families)), ...silentWords(sentence)];
  const why = sentence.why ?? missing(sentence);
  const { override } = sentence;
  const told = {
    text: sentence.text,
    status: statusOf(sentence),
    words,
    ...(why === undefined ? {} : { why }),
    earns: sentence.actions.some(earnsSafety),
    key: textKey(`${readingVersion}|${sentence.text}|${words.join('|')}`),
    ...(override ? { override: { reads: override.reads, because: override.because, by: override.by } } : {}),
  };
  TOLD.set(sentence, { family: families[0], told });
  return told;
}

function statusOf(sentence: Sentence): ReadingStatus {
  if (sentence.status === 'unread' || sentence.status === 'remark') return sentence.status;
  const open =
    sentence.unknown.length > 0 ||
    sentence.ambiguous.length > 0 ||
    sentence.actions.some((action) => [...action.when, ...(action.until ? [action.until] : [])].some(({ kind }) => kind === 'unread'));
  return open ? 'partly' : 'read';
}

/** Sentences that are understood and do nothing say so. */
function silentWords(sentence: Sentence): readonly string[] {
  if (sentence.actions.length > 0) return [];
  if (sentence.status === 'confirmation') return ['asks to confirm; changes nothing'];
  if (sentence.status === 'prohibition') return ['forbids; changes nothing'];
  if (sentence.status === 'remark') return ['a remark; changes nothing'];
  if (sentence.hanging !== undefined) return [`${sentence.hanging.verb}: what the bullets below name`];
  return sentence.status === 'read' ? ['changes nothing; goes on'] : [];
}

function missing(sentence: Sentence): string | undefined {
  const unknown = sentence.unknown.map(({ text }) => `"${text}" is not a registered name`);
  const double = sentence.ambiguous.map(({ text, things }) => `"${text}" may be ${things.map(({ kind }) => kind).join(' or ')}`);
  const all = [...unknown, ...double];
  return all.length === 0 ? undefined : all.join('; ');
}
