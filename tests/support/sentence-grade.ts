/**
 * Grades what the reader made of a sentence against what a technician reads in it. Wrong is worse than unread: whatever is asserted
 * and contradicts, whatever is silently dropped and whatever was read although nobody could, is wrong.
 */
import type { Action, Condition, Reading, Target, ThingUse } from '../../procedures-schema/reading/index.ts';
import type { ExpectedAction, ExpectedCondition, ExpectedSentence, ExpectedThing, SentenceCase } from './sentences.ts';

/**
 * exact: all actions with all given fields, none extra. partial: some right, the rest marked unread or a detail short, nothing false.
 * unread: said not to be read. wrong: asserts what contradicts or drops an action without saying so.
 */
export type Grade = 'exact' | 'partial' | 'unread' | 'wrong';
export interface GradedSentence {
  readonly text: string;
  readonly grade: Grade;
  readonly notes: readonly string[];
  /** Refusing to read it would have been right too, or is the only right thing. */
  readonly refusalIsRight: boolean;
}

/** One action on at most one thing: a verb with three objects counts as three. */
interface Got {
  readonly action: Action;
  readonly use: ThingUse | undefined;
}
interface Wanted {
  readonly action: ExpectedAction;
  readonly thing: ExpectedThing | undefined;
}
interface Differences {
  readonly false: readonly string[];
  readonly short: readonly string[];
}

export function gradeReading(one: SentenceCase, reading: Reading, renews: ReadonlyMap<string, string>): GradedSentence {
  const wanted = one.expect.flatMap((sentence) => sentence.actions.flatMap(explodeWanted));
  const got = reading.sentences.flatMap((sentence) => sentence.actions.flatMap(explodeGot));
  const statuses = compareStatuses(one.expect, reading);
  const anyUnread = reading.sentences.some((sentence) => sentence.status === 'unread');

  const wrong = [...statuses.false];
  const short = [...statuses.short];
  const taken = new Set<Got>();
  const order: { readonly want: number; readonly got: number; readonly thing: string }[] = [];
  let matched = 0;
  let missed = 0;
  for (const [index, want] of wanted.entries()) {
    const best = bestMatch(want, got, taken, renews);
    if (best === undefined) {
      if (want.action.may) continue;
      missed += 1;
      (anyUnread ? short : wrong).push(`${anyUnread ? 'not read' : 'dropped'}: ${wordsOf(want)}`);
      continue;
    }
    matched += 1;
    taken.add(best.got);
    // "*" stands for whatever things: the other objects of the same verb are part of it.
    if (want.thing === undefined) for (const other of got) if (other.action === best.got.action) taken.add(other);
    wrong.push(...best.differences.false.map((d) => `${wordsOf(want)}: ${d}`));
    short.push(...best.differences.short.map((d) => `${wordsOf(want)}: ${d}`));
    if (best.got.use !== undefined) order.push({ want: index, got: got.indexOf(best.got), thing: best.got.use.thing.name });
  }
  for (const extra of got) if (!taken.has(extra) && !harmless(extra)) wrong.push(`not expected: ${wordsOfGot(extra)}`);
  for (const a of order)
    for (const b of order)
      if (a.want < b.want && a.got > b.got && a.thing === b.thing) wrong.push(`order of what is done to the ${a.thing}`);

  const refused = anyUnread && matched === 0 && missed === wanted.filter((w) => !w.action.may).length;
  const grade: Grade = wrong.length > 0 ? 'wrong' : short.length === 0 ? 'exact' : refused ? 'unread' : 'partial';
  const why = reading.sentences.filter((s) => s.status === 'unread').map((s) => `unread because: ${s.why ?? 'not said'}`);
  return { text: one.text, grade, notes: [...wrong, ...short, ...why], refusalIsRight: one.expect.some((s) => allows(s, 'unread')) };
}

function explodeWanted(action: ExpectedAction): readonly Wanted[] {
  if (action.things === undefined || action.things.length === 0) return [{ action, thing: undefined }];
  return action.things.map((thing) => ({ action, thing: typeof thing === 'string' ? { thing } : thing }));
}
function explodeGot(action: Action): readonly Got[] {
  return action.things.length === 0 ? [{ action, use: undefined }] : action.things.map((use) => ({ action, use }));
}

/** Naming a tool asserts nothing of the machine; nor does seeing or hearing without touching. */
function harmless(extra: Got): boolean {
  return extra.action.kind === 'use' || ((extra.action.kind === 'observe' || extra.action.kind === 'sense') && !extra.action.contact);
}

function allows(sentence: ExpectedSentence, status: string): boolean {
  return (typeof sentence.status === 'string' ? [sentence.status] : sentence.status).some((s) => s === status);
}

/** Sentence by sentence where both sides cut alike, else over the whole text. */
function compareStatuses(expect: readonly ExpectedSentence[], reading: Reading): Differences {
  const wrong: string[] = [];
  const short: string[] = [];
  const alike = expect.length === reading.sentences.length;
  for (const [index, sentence] of reading.sentences.entries()) {
    const own = expect[index];
    const candidates = alike && own !== undefined ? [own] : expect;
    if (candidates.some((c) => allows(c, sentence.status))) continue;
    const said = `status ${sentence.status}: ${sentence.text}`;
    const onlyUnread = candidates.every((c) => c.status === 'unread');
    if (sentence.status === 'unread') short.push(said);
    else if (onlyUnread) wrong.push(said);
    else short.push(said);
  }
  return { false: wrong, short };
}

function bestMatch(want: Wanted, got: readonly Got[], taken: ReadonlySet<Got>, renews: ReadonlyMap<string, string>) {
  let best: { readonly got: Got; readonly differences: Differences } | undefined;
  let cost = Number.POSITIVE_INFINITY;
  for (const one of got) {
    if (taken.has(one) || !sameKind(want.action, one.action) || !sameThing(want, one, renews)) continue;
    const differences = compareFields(want, one);
    const own = differences.false.length * 100 + differences.short.length;
    if (own < cost) {
      cost = own;
      best = { got: one, differences };
    }
  }
  return best;
}

function sameKind(want: ExpectedAction, got: Action): boolean {
  return typeof want.kind === 'string' ? want.kind === got.kind : want.kind.includes(got.kind);
}
function sameThing(want: Wanted, got: Got, renews: ReadonlyMap<string, string>): boolean {
  if (want.thing === undefined) return true;
  if (got.use === undefined) return false;
  const name = got.use.thing.name;
  return name === want.thing.thing || (got.use.thing.kind === 'replacement' && renews.get(name) === want.thing.thing);
}

/** Position words that mean the same on any thing. */
const same: readonly ReadonlySet<string>[] = [
  new Set(['closed', 'shut']),
  new Set(['in', 'set', 'fitted', 'in place']),
  new Set(['out', 'disengaged', 'withdrawn']),
];

function compareFields(want: Wanted, { action: got, use }: Got): Differences {
  const wrong: string[] = [];
  const short: string[] = [];
  const { action, thing } = want;

  if (thing !== undefined && use !== undefined) {
    if (thing.count !== undefined && use.count !== thing.count)
      (use.count === undefined ? short : wrong).push(`count ${use.count ?? 'missing'}`);
    if (thing.count === undefined && use.count !== undefined) wrong.push(`count ${use.count} not expected`);
    if (thing.all && !use.all) short.push('"all" missing');
    if (fold(thing.place ?? '') !== fold(use.place ?? '')) wrong.push(`place "${use.place ?? ''}"`);
    if (!holds(use.except ?? '', thing.except ?? '') || (thing.except === undefined && use.except !== undefined))
      wrong.push(`except "${use.except ?? ''}"`);
  }
  if (action.position !== undefined && got.position === undefined) short.push('position missing');
  else if (action.position !== undefined && !samePosition(action.position, got.position ?? '')) wrong.push(`position ${got.position}`);
  for (const name of action.with ?? []) if (!got.with.some((w) => w.thing.name === name)) short.push(`with ${name} missing`);
  for (const amount of action.amounts ?? [])
    if (!got.amounts.some((a) => squeeze(a.text) === squeeze(amount)))
      (got.amounts.length === 0 ? short : wrong).push(`amount ${amount} among [${got.amounts.map((a) => a.text).join(', ')}]`);
  if ((action.stage ?? 'final') !== (got.stage ?? 'final')) wrong.push(`stage ${got.stage ?? 'none'}`);
  if (action.role !== got.role) wrong.push(`role ${got.role ?? 'missing'}`);
  if (action.result !== undefined && !holds(got.result ?? '', action.result)) short.push(`result "${got.result ?? ''}"`);
  if (action.contact !== undefined && action.contact !== got.contact) wrong.push(`contact ${got.contact}`);
  if ((action.outside ?? false) !== got.outside) wrong.push(`outside ${got.outside}`);
  if (action.target !== undefined && !sameTarget(action.target, got.target)) wrong.push(`target ${JSON.stringify(got.target)}`);

  if (action.until !== undefined && got.until === undefined) wrong.push('until missing');
  else if (action.until === undefined && got.until !== undefined) short.push(`until "${got.until.text}" not expected`);
  else if (action.until !== undefined && got.until !== undefined) compareCondition(action.until, got.until, wrong, short);
  if (action.when !== 'any') compareConditions(action.when ?? [], got.when, wrong, short);
  return { false: wrong, short };
}

function compareConditions(want: readonly ExpectedCondition[], got: readonly Condition[], wrong: string[], short: string[]): void {
  if (want.length > got.length) wrong.push(`condition missing: ${JSON.stringify(want.slice(got.length))}`);
  for (const [index, condition] of got.entries()) {
    const expected = want[index];
    if (expected === undefined) wrong.push(`condition not expected: ${condition.kind} "${condition.text}"`);
    else compareCondition(expected, condition, wrong, short);
  }
}

function compareCondition(want: ExpectedCondition, got: Condition, wrong: string[], short: string[]): void {
  const told = `condition ${JSON.stringify(got)}`;
  if (want.kind === 'any') {
    if (!fold(got.text).includes(fold(want.text ?? ''))) short.push(told);
  } else if (got.kind === 'unread') short.push(told);
  else if (got.kind !== want.kind) wrong.push(told);
  else if (got.kind === 'outcome') {
    if (got.outcome !== want.outcome || (want.subject !== undefined && got.subject !== undefined && got.subject !== want.subject))
      wrong.push(told);
  } else if (got.kind === 'variant') {
    const alike =
      listed(got.models) === listed(want.models ?? []) &&
      listed(got.options) === listed(want.options ?? []) &&
      got.negated === (want.negated ?? false) &&
      got.serial?.from === want.serial?.from &&
      got.serial?.to === want.serial?.to;
    if (!alike) wrong.push(told);
  }
}

function sameTarget(want: Readonly<Record<string, string>>, got: Target | undefined): boolean {
  if (got === undefined) return false;
  const plain: Readonly<Record<string, string | undefined>> = { ...got };
  return Object.entries(want).every(([key, value]) => fold(plain[key] ?? '') === fold(value));
}
function samePosition(want: string, got: string): boolean {
  const [a, b] = [fold(want), fold(got)];
  return a === b || same.some((set) => set.has(a) && set.has(b));
}

function listed(names: readonly string[]): string {
  return [...names].sort().join('|');
}
/** Folded, one holds the other; an empty one holds only the empty. */
function holds(a: string, b: string): boolean {
  const [x, y] = [fold(a), fold(b)];
  return x === '' || y === '' ? x === y : x.includes(y) || y.includes(x);
}
function fold(text: string): string {
  return text
    .toLowerCase()
    .replace(/[\s\u00a0]+/g, ' ')
    .trim();
}
function squeeze(text: string): string {
  return fold(text).replace(/ /g, '');
}
function wordsOf({ action, thing }: Wanted): string {
  const kinds = typeof action.kind === 'string' ? action.kind : action.kind.join('/');
  return thing === undefined ? kinds : `${kinds} ${thing.thing}`;
}
function wordsOfGot({ action, use }: Got): string {
  return use === undefined
    ? action.kind
    : `${action.kind} ${use.thing.name}${action.position === undefined ? '' : ` to ${action.position}`}`;
}
