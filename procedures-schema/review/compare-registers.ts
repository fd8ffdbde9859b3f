/**
 * What the registers say otherwise of the things that a procedure has to do with: a torque, the safe position of a point, what endangers a zone. Told
 * field by field, in the words of the register; what it does to the steps is told elsewhere.
 */
import type { Model, Origin } from '../registers/index.ts';
import type { Changed, OneText, Weight } from './changed.ts';
import { concerned, namedIn, walkedFrom } from './signed.ts';

interface Entry {
  /** "fastener hub bolt" */
  readonly about: string;
  readonly weight: Weight;
  readonly fields: Readonly<Record<string, string>>;
  readonly origin?: Origin;
}

export function registerChanges(earlier: OneText, later: OneText): Changed[] {
  const [before, after] = entriesOf(earlier, later);
  const found: Changed[] = [];
  for (const [key, is] of after) {
    const was = before.get(key);
    const place = is.origin === undefined ? {} : { file: is.origin.file, span: is.origin.span };
    if (!was) {
      found.push({ kind: 'thing added', weight: is.weight, about: is.about, after: said(is.fields), ...place });
      continue;
    }
    for (const field of new Set([...Object.keys(was.fields), ...Object.keys(is.fields)])) {
      const [old, now] = [was.fields[field], is.fields[field]];
      if (old === now) continue;
      found.push({
        kind: 'thing changed',
        weight: MEASURED.has(field) ? 'limits' : is.weight,
        about: `${is.about}: ${field}`,
        ...(old === undefined ? {} : { before: old }),
        ...(now === undefined ? {} : { after: now }),
        ...place,
      });
    }
  }
  for (const [key, was] of before)
    if (!after.has(key)) found.push({ kind: 'thing gone', weight: was.weight, about: was.about, before: said(was.fields) });
  return found;
}

/** Fields that a technician sets or measures by. */
const MEASURED: ReadonlySet<string> = new Set(['torque', 'condition', 'range', 'resolution']);

/** Kinds of things of a machine with their word, gravest first. All but the last guard or endanger somebody, or are undone and must be done up again. */
const OF_MACHINE = [
  ['sources', 'source'],
  ['none', 'answer on'],
  ['points', 'point'],
  ['controls', 'control'],
  ['covers', 'cover'],
  ['zones', 'zone'],
  ['gauges', 'gauge'],
  ['parts', 'part'],
  ['fasteners', 'fastener'],
] as const;

const LISTED = [
  ['tools', 'tool', 'work'],
  ['consumables', 'consumable', 'work'],
  ['replacements', 'replacement', 'work'],
] as const;

type Entries = ReadonlyMap<string, Entry>;

/** What one of the two texts names is looked up for both: a name that is gone from a text is told of the text. */
function entriesOf(earlier: OneText, later: OneText): readonly [Entries, Entries] {
  const named = new Set([earlier, later].flatMap(({ facts, library }) => [...namedIn(walkedFrom(facts, library))]));
  // A model or a name that one of the two texts does not have is told of the text, not of the registers.
  const models = ({ facts }: OneText): ReadonlySet<string> => new Set(facts.machines.map(({ variant }) => variant.model));
  const both = new Set([...models(earlier)].filter((name) => models(later).has(name)));
  return [earlier, later].map((own) => entriesIn(own, named, both)) as unknown as readonly [Entries, Entries];
}

function entriesIn({ facts, library: { registers } }: OneText, named: ReadonlySet<string>, models: ReadonlySet<string>): Entries {
  const out = new Map<string, Entry>();
  const put = (word: string, weight: Weight, thing: Readonly<{ name: string; origin?: Origin }>): void => {
    const about = `${word} ${thing.name}`;
    if (!out.has(about))
      out.set(about, { about, weight, fields: fieldsOf(thing), ...(thing.origin === undefined ? {} : { origin: thing.origin }) });
  };
  for (const machine of facts.machines.filter(({ variant }) => models.has(variant.model))) {
    const own = concerned(machine, named, registers);
    for (const [key, word] of OF_MACHINE) for (const thing of own[key]) put(word, 'protection', thing);
  }
  for (const [key, kind, weight] of LISTED)
    for (const thing of registers[key]) if (named.has(`${kind} ${thing.name}`)) put(kind, weight, thing);
  for (const model of registers.models) if (models.has(model.name)) out.set(`model ${model.name}`, modelEntry(model));
  const { lockoutProfile, units } = registers.house;
  out.set('lockout profile', { about: 'house', weight: 'protection', fields: { 'lockout profile': lockoutProfile } });
  out.set('units', { about: 'house', weight: 'limits', fields: { units: `${units.first}, ${units.second}` } });
  return out;
}

/** What formulas reckon with. */
const modelEntry = ({ name, attributes, options, serials, origin }: Model): Entry => ({
  about: `model ${name}`,
  weight: 'limits',
  fields: {
    ...attributes,
    ...(options.length === 0 ? {} : { options: options.join(', ') }),
    ...Object.fromEntries(serials.map((range) => [`serials ${range.from ?? ''} to ${range.to ?? ''}`, said(range.attributes)])),
  },
  origin,
});

/** Made from other fields, which are told by themselves; or no saying about the thing. */
const DERIVED: ReadonlySet<string> = new Set(['name', 'origin', 'stored', 'roles']);

function fieldsOf(thing: object): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(thing).flatMap(([key, value]) => {
      const text = DERIVED.has(key) ? '' : textOf(value);
      return text === '' ? [] : [[FIELD_WORDS[key] ?? key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`), text]];
    }),
  );
}

/** Fields that a register calls otherwise. */
const FIELD_WORDS: Readonly<Record<string, string>> = {
  aliases: 'also',
  fitted: 'only on',
  settles: 'settles in',
  returnTest: 'when disturbed',
  because: 'none because',
};

/** Empty: says nothing. "no" is what a register says by leaving a field out. */
function textOf(value: unknown): string {
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return String(value);
  if (value === true) return 'yes';
  if (Array.isArray(value)) return value.map(textOf).join(', ');
  if (typeof value !== 'object' || value === null) return '';
  if ('point' in value && 'safe' in value) return `${textOf(value.point)}: ${textOf(value.safe)}`;
  return Object.values(value)
    .map(textOf)
    .filter((text) => text !== '')
    .join(', ');
}

const said = (fields: Readonly<Record<string, string>>): string =>
  Object.entries(fields)
    .map(([field, text]) => `${field}: ${text}`)
    .join('; ');
