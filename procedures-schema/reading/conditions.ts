/** Reads a condition's words: which models, which outcome, which state; anything else is a fact that is free once and then fixed. */
import { foldText } from '../format/index.ts';
import type { Condition } from './action.ts';
import type { ReadingContext } from './context.ts';
import type { Item } from './items.ts';
import type { Tables } from './tables.ts';

/** `items` are those of the condition, without "if". `text` is what people read. `unless` turns it round. */
export function readCondition(items: readonly Item[], text: string, context: ReadingContext, tables: Tables, unless = false): Condition {
  const bare = foldText(text)
    .replace(/^(?:if|when|unless|where|for|on)\s+/, '')
    .replace(/[:,.]+$/, '');
  if (bare === '') return { kind: 'unread', text };
  const negated =
    unless !== words(items).some((word) => tables.sets.negators.has(word) || word === 'without' || word === 'except' || word === 'no');
  return (
    variant(items, text, negated, context) ??
    outcome(items, text, context, tables, unless) ??
    state(items, text, tables, negated) ??
    fact(bare, text, unless, tables)
  );
}

const words = (items: readonly Item[]): string[] => items.flatMap((item) => (item.kind === 'word' ? [item.word] : []));

function variant(items: readonly Item[], text: string, negated: boolean, context: ReadingContext): Condition | undefined {
  const named = items.flatMap((item) => (item.kind === 'name' ? item.things : []));
  const models = named.filter((thing) => thing.kind === 'model').map((thing) => thing.name);
  const options = named.filter((thing) => thing.kind === 'option').map((thing) => thing.name);
  const serial = serialOf(text);
  if (models.length === 0 && options.length === 0 && serial === undefined) return undefined;
  // A model beside a measurement or a part in one condition is more than a variant.
  if (named.some((thing) => !['model', 'option', 'machine'].includes(thing.kind))) return undefined;
  // A serial number that no register breaks at may be on either side of it.
  if (serial !== undefined && !breaksAt(serial, models, context))
    return models.length + options.length > 0
      ? { kind: 'unread', text }
      : { kind: 'fact', key: `serial number ${serial.from ?? ''} to ${serial.to ?? ''}`, negated, text };
  return { kind: 'variant', models, options, negated, text, ...(serial ? { serial } : {}) };
}

/** Whether the serial ranges of every machine it may be about decide it. */
function breaksAt(serial: { from?: number; to?: number }, models: readonly string[], { families, registers }: ReadingContext): boolean {
  const concerned = registers.models.filter(({ name, family }) =>
    models.length > 0 ? models.includes(name) : families.some((one) => one.name === family),
  );
  const broken = concerned.filter(({ serials }) => serials.length > 1);
  const decides = (ranges: readonly { readonly from?: number; readonly to?: number }[]): boolean =>
    (serial.from === undefined || ranges.some(({ from, to }) => from === serial.from || to === (serial.from as number) - 1)) &&
    (serial.to === undefined || ranges.some(({ from, to }) => to === serial.to || from === (serial.to as number) + 1));
  return (
    broken.length > 0 && (models.length === 0 || broken.length === concerned.length) && broken.every(({ serials }) => decides(serials))
  );
}

function serialOf(text: string): { from?: number; to?: number } | undefined {
  if (!/\bserial/i.test(text) && !/\bnumbers?\b/i.test(text)) return undefined;
  const range = /\b(\d{2,9})\s*(?:to|through|-|–)\s*(\d{2,9})\b/.exec(text);
  if (range) return { from: Number(range[1]), to: Number(range[2]) };
  const to =
    /(?:\b(?:up to|to|below|before|through|until)\s+(?:and including\s+)?(?:serial\s+)?(?:numbers?\s+)?)(\d{2,9})\b/i.exec(text) ??
    /\b(\d{2,9})\s+(?:and (?:below|lower|earlier|down)|or (?:below|lower|earlier))/i.exec(text);
  if (to) return { to: Number(to[1]) };
  const from =
    /(?:\b(?:from|above|after|over)\s+(?:serial\s+)?(?:numbers?\s+)?)(\d{2,9})\b/i.exec(text) ??
    /\b(\d{2,9})\s+(?:and (?:up|above|later|higher|on|over)|or (?:above|later|higher)|onwards?|upwards?)/i.exec(text);
  return from ? { from: Number(from[1]) } : undefined;
}

function outcome(items: readonly Item[], text: string, context: ReadingContext, tables: Tables, unless: boolean): Condition | undefined {
  const measured = items.flatMap((item) => (item.kind === 'name' ? item.things.filter((thing) => thing.kind === 'measurement') : []));
  const subject = measured.length === 1 ? measured[0]?.name : undefined;
  const folded = ` ${foldText(text).replace(/[.,:;]/g, ' ')} `;
  const about = context.measurements.find((one) => one.name === subject);
  const sensed = sensedOutcome(folded, context, subject, tables);
  if (sensed) return { kind: 'outcome', outcome: unless ? flip(sensed.outcome) : sensed.outcome, subject: sensed.subject, text };
  const others = items.some(
    (item) => item.kind === 'name' && !item.things.some((thing) => ['measurement', 'gauge', 'tool', 'machine'].includes(thing.kind)),
  );
  const limited = [...tables.sets.limitNouns].some((word) => folded.includes(` ${word} `));
  const it = /\b(?:it|they|reading|value|readings|values|result)\b/.test(folded);
  const judged = subject === undefined && it && !others ? / (not )?(pass|passes|passed|fail|fails|failed) /.exec(folded) : null;
  if (judged) {
    const good = (judged[2] as string).startsWith('pass') === (judged[1] === undefined);
    return { kind: 'outcome', outcome: good !== unless ? 'pass' : 'fail', text };
  }
  // "Within: go on."
  const alone = context.measurements.length > 0 && /^ (?:within|inside|outside|over|above|under|below) $/.test(folded);
  if (subject === undefined && !limited && !alone && !(it && !others)) return undefined;
  if (about?.sensed) return undefined;
  const { outcomes } = tables.lexicon;
  const no = / not | never | n't /.test(folded);
  const has = (list: readonly string[]): boolean => list.some((phrase) => folded.includes(` ${phrase} `));
  let found: 'over' | 'under' | 'within' | 'not-within' | undefined;
  if (/ (?:under|below) or (?:over|above) | (?:over|above) or (?:under|below) /.test(folded)) found = 'not-within';
  else if (has(outcomes['not-within'])) found = 'not-within';
  else if (has(outcomes.over) && !/ (?:at least|at most) /.test(folded)) found = 'over';
  else if (has(outcomes.under) && !/ (?:at least|at most) /.test(folded)) found = 'under';
  else if ((limited || alone || subject !== undefined) && has(outcomes.within)) found = 'within';
  if (!found) return undefined;
  const turned = no !== unless;
  if (turned && found === 'within') found = 'not-within';
  else if (turned && found === 'not-within') found = 'within';
  else if (turned) return undefined;
  return { kind: 'outcome', outcome: found, text, ...(subject === undefined ? {} : { subject }) };
}

function flip(outcome: 'pass' | 'fail'): 'pass' | 'fail' {
  return outcome === 'pass' ? 'fail' : 'pass';
}

/** The condition repeats what the front matter says passes or fails. Three content words in common, or most of them. */
function sensedOutcome(
  folded: string,
  context: ReadingContext,
  subject: string | undefined,
  tables: Tables,
): { outcome: 'pass' | 'fail'; subject: string } | undefined {
  const { small } = tables.lexicon.clauseWords;
  let best: { outcome: 'pass' | 'fail'; subject: string; share: number } | undefined;
  for (const { name, sensed } of context.measurements) {
    if (!sensed || (subject !== undefined && subject !== name)) continue;
    if (subject === name && / pass(?:es|ed)? /.test(folded)) return { outcome: / not /.test(folded) ? 'fail' : 'pass', subject: name };
    if (subject === name && / fail(?:s|ed)? /.test(folded)) return { outcome: / not /.test(folded) ? 'pass' : 'fail', subject: name };
    for (const outcome of ['pass', 'fail'] as const) {
      // "It knocks or grinds": each of them by itself, or all together.
      const ways = folded.split(' or ').map((way) => overlap(` ${way} `, sensed[outcome], small));
      const share = Math.max(overlap(folded, sensed[outcome], small), Math.min(...ways));
      if (share > (best?.share ?? 0)) best = { outcome, subject: name, share };
    }
  }
  return best && best.share >= 0.6 ? best : undefined;
}

function overlap(folded: string, told: string, small: readonly string[]): number {
  // Alternatives of a criterion stand on their own: "a joint turns wet or oil drips".
  const said = new Set(
    folded
      .trim()
      .split(/\s+/)
      .filter((word) => !small.includes(word))
      .map(stem),
  );
  if (said.size === 0) return 0;
  let best = 0;
  // "The unit shakes" is said again as "it shakes".
  const parts = told.split(/\bor\b|,|;/);
  const short = / (?:it|they) /.test(folded) ? parts.map((part) => part.trim().replace(/^(?:the|a|an) \S+ (?=\S)/i, '')) : [];
  for (const part of [...parts, ...short]) {
    const all = foldText(part)
      .replace(/[.,:;]/g, ' ')
      .split(/\s+/)
      .filter((word) => word !== '' && !small.includes(word))
      .map(stem);
    if (all.length === 0) continue;
    const shared = all.filter((word) => said.has(word)).length;
    const negation = / not | no | nothing | without /.test(folded) !== /\b(?:not|no|nothing|without)\b/.test(foldText(part));
    if (!negation) best = Math.max(best, Math.min(shared / said.size, shared >= 2 ? 1 : shared / all.length));
  }
  return best;
}

const stem = (word: string): string => word.replace(/(?:ing|ed|es|ly|s)$/, '');

function state(items: readonly Item[], text: string, tables: Tables, negated: boolean): Condition | undefined {
  const named = items.flatMap((item) => (item.kind === 'name' ? [item] : []));
  const thing = named.length === 1 && named[0]?.things.length === 1 ? named[0].things[0] : undefined;
  if (!thing || !['point', 'cover', 'part', 'control', 'fastener'].includes(thing.kind)) return undefined;
  const tail = words(items).filter(
    (word) =>
      !tables.sets.be.has(word) &&
      !tables.sets.determiners.has(word) &&
      !['still', 'already', 'not', 'if', 'unless', 'when', 'yet'].includes(word),
  );
  const position = tail.length === 1 ? tables.positions.get(tail[0] as string) : undefined;
  return position === undefined ? undefined : { kind: 'state', thing, state: position, negated, text };
}

function fact(bare: string, text: string, unless: boolean, tables: Tables): Condition {
  let negated = unless;
  const key = bare
    .split(' ')
    .filter((word) => {
      if (!tables.sets.negators.has(word) && word !== 'no') return true;
      negated = !negated;
      return false;
    })
    .join(' ');
  return key === '' ? { kind: 'unread', text } : { kind: 'fact', key, negated, text };
}
