/** Completion in the body of a procedure but for brackets: units, notices, attributes, instructions, models of a table. */
import { ATTRIBUTE_KEYS, foldText, SIGNAL_WORDS } from '../format/index.ts';
import { limitModel, rangeName, UNITS } from '../quantities/index.ts';
import type { ThingKind } from '../registers/index.ts';
import { type At, type CompleteContext, cut, weightOf } from './complete-context.ts';
import { instructionsFor, VERB } from './instructions.ts';
import type { Completion, Completions } from './model.ts';
import { familiesHere, namesHere } from './names-here.ts';
import { readingChoices } from './overrides.ts';
import { machineWord } from './phrases.ts';
import { ranked } from './rank.ts';
import { clipped } from './reading-words.ts';

const ATTRIBUTE_WORDS: Readonly<Record<string, string>> = {
  reads: 'says outright how the step is read',
  because: 'why the reading is said outright',
  by: 'initials of who says so',
  aside: 'this section is only called or jumped to',
  use: 'a standing notice of the register',
  width: 'how wide the figure is printed',
};
const FLAGS: ReadonlySet<string> = new Set(['aside']);

export function completeBraces({ on, typed, replace, inside }: At<'braces'>): Completions {
  const keys = ATTRIBUTE_KEYS[on].filter((key) => !new RegExp(`(?:^|\\s)${key}(?:[\\s=}]|$)`).test(inside.replace(typed, '')));
  const items = keys.map((key): Completion => {
    const insert = FLAGS.has(key) ? key : `${key}=""`;
    return {
      kind: 'attribute',
      label: key,
      detail: ATTRIBUTE_WORDS[key] ?? '',
      insert,
      replace,
      ...(FLAGS.has(key) ? {} : { caret: insert.length - 1 }),
    };
  });
  const id: Completion[] = inside.includes('#')
    ? []
    : [{ kind: 'attribute', label: '#', detail: 'a name of its own, for references', insert: '#', replace }];
  return cut(
    'braces',
    ranked([...id, ...items], typed, ({ label }) => ({ spellings: [label], weight: 0 })),
  );
}

const NOTICE_WORDS: Readonly<Record<(typeof SIGNAL_WORDS)[number], string>> = {
  danger: 'will kill or badly hurt',
  warning: 'could kill or badly hurt',
  caution: 'could hurt',
  notice: 'could damage; nobody is hurt',
};

export function completeNotice({ typed, replace }: At<'notice'>): Completions {
  const items = SIGNAL_WORDS.map(
    (word): Completion => ({
      kind: 'notice',
      label: word,
      detail: NOTICE_WORDS[word],
      insert: `${word}\n\n:::`,
      caret: word.length + 1,
      replace,
    }),
  );
  return cut(
    'notice',
    ranked(items, typed, ({ label }) => ({ spellings: [label], weight: 0 })),
  );
}

/** Units of the house's first system before the second, those that stand in the text already before all. */
export function completeUnit({ typed, replace }: At<'unit'>, { text, library }: CompleteContext): Completions {
  const { first, second } = library.registers.house.units;
  const used = new Set<string>();
  for (const found of text.matchAll(/\d[ \u00a0]?([^\s\d()[\]{},;:|]+)/g)) used.add((found[1] ?? '').replace(/\.$/, ''));
  const weight = (symbol: string, system: string): number =>
    (used.has(symbol) ? 0 : 10) + (system === first || system === 'both' ? 0 : system === second ? 1 : 2);
  const items = UNITS.filter(({ symbol }) => symbol !== '').map((unit) => ({
    unit,
    weight: weight(unit.symbol, unit.system),
  }));
  const fitting = items.filter(({ unit }) => typed === '' || foldUnit(unit.symbol).startsWith(foldUnit(typed)));
  const exact = ({ unit }: (typeof items)[number]): number => (unit.symbol.startsWith(typed) ? 0 : 1);
  fitting.sort((a, b) => exact(a) - exact(b) || a.weight - b.weight);
  return cut(
    'unit',
    fitting.map(({ unit }) => ({ kind: 'unit', label: unit.symbol, detail: unit.kind, insert: unit.symbol, replace })),
  );
}

/** "Nm" and "N.m" find N·m; "m2" finds m²; "C" finds °C. */
function foldUnit(symbol: string): string {
  return symbol
    .toLowerCase()
    .replace(/[·.*°⋅]/g, '')
    .replace(/²/g, '2')
    .replace(/³/g, '3')
    .replace(/[μµ]/g, 'u');
}

export function completeStepStart({ typed, replace }: At<'step start'>, { library, facts }: CompleteContext): Completions {
  const all = instructionsFor(library, facts).map((one, order) => ({ ...one, plain: one.text.replace(/[[\]]/g, ''), order }));
  const fitting = ranked(all, typed, ({ plain, detail }) => ({ spellings: [plain], weight: detail === VERB ? 1 : 0 }));
  return cut(
    'step start',
    fitting.map(({ text, detail, caret, plain }) => ({
      kind: 'instruction',
      label: plain.trimEnd(),
      detail,
      insert: caret === undefined && !/\s$/.test(text) ? `${text}.` : text,
      replace,
      ...(caret === undefined ? {} : { caret }),
    })),
  );
}

export function completeTable({ typed, replace, column }: At<'table'>, { library, facts, text }: CompleteContext): Completions {
  const own = facts?.head.models.map(({ name }) => name) ?? [];
  const named = own.length > 0 ? own : library.registers.models.map(({ name }) => name);
  // A model that changed with a serial number may have a row for each range.
  const models = named.flatMap((name) => {
    const { ranges } = limitModel(name, library.registers);
    return [name, ...(ranges.length > 1 ? ranges.map(({ serial }) => rangeName(name, serial)) : [])];
  });
  const measurements = facts?.head.measurements.filter(({ sensed }) => !sensed).map(({ name }) => name) ?? [];
  const values = column === 0 ? ['model', ...models] : measurements.flatMap((name) => [`${name} lower`, `${name} upper`, name]);
  const rest = /^[^\n]*/.exec(text.slice(replace.end))?.[0] ?? '';
  const items = values.map(
    (value): Completion => ({
      kind: column === 0 ? 'model' : 'measurement',
      label: value,
      detail: column === 0 ? 'model' : 'column',
      insert: rest.includes('|') ? value : `${value} | `,
      replace,
    }),
  );
  return cut(
    'table',
    ranked(items, typed.trimEnd(), ({ label }) => ({ spellings: [label], weight: 0 })),
  );
}

const IN_PROSE: ReadonlySet<ThingKind> = new Set<ThingKind>([
  'measurement',
  'point',
  'control',
  'cover',
  'part',
  'fastener',
  'gauge',
  'tool',
  'consumable',
  'replacement',
  'model',
  'option',
  'source',
]);

/** In running text a name comes with its brackets; a model or option is written plain. */
export function completeWord({ typed, replace }: At<'prose'>, context: CompleteContext): Completions {
  const names = namesHere(context.library, context.facts).filter(({ thing }) => IN_PROSE.has(thing.kind));
  const starts = names.filter(({ spellings }) => spellings.some((spelling) => foldText(spelling).startsWith(foldText(typed))));
  const items = ranked(starts, typed, ({ spellings, thing }) => ({ spellings, weight: weightOf(thing.kind) }));
  return cut(
    'prose',
    items.map(({ thing, detail, note }) => ({
      kind: thing.kind,
      label: thing.name,
      detail,
      ...(note === '' ? {} : { note }),
      insert: thing.kind === 'model' || thing.kind === 'option' ? thing.name : `[${thing.name}]`,
      replace,
    })),
  );
}

/** Conditions for the outcomes of what the front matter measures, then the models and options that bullets may tell apart. */
export function completeBranch({ typed, replace }: At<'branch'>, { facts, library }: CompleteContext): Completions {
  const measurements = facts?.head.measurements ?? [];
  const numbers = measurements.some(({ sensed }) => !sensed);
  const senses = measurements.some(({ sensed }) => sensed);
  const models = facts?.head.models.map(({ name }) => name) ?? [];
  const options = facts?.head.options.map(({ name }) => name) ?? [];
  const lines = [
    ...(numbers
      ? [
          ['If it is within the limits, ', 'outcome'],
          ['If it is under the limit, ', 'outcome'],
          ['If it is over the limit, ', 'outcome'],
          ['If it is under or over the limits, ', 'outcome'],
        ]
      : []),
    ...(senses
      ? [
          ['If it passes, ', 'outcome'],
          ['If it fails, ', 'outcome'],
        ]
      : []),
    ...measurements.flatMap(({ name, sensed }) => [
      [sensed ? `If the [${name}] passes, ` : `If the [${name}] is within the limits, `, name],
    ]),
    ...models.map((name) => [`For the ${name}: `, 'model']),
    ...options.map((name) => [`For ${machineOf(library, facts)}s with the ${name}: `, 'option']),
    ['Otherwise, ', 'everything else'],
  ] as const;
  const items = lines.map(([text = '', detail = '']) => ({ text, detail, plain: text.replace(/[[\]]/g, '').trimEnd() }));
  return cut(
    'branch',
    ranked(items, typed, ({ plain }) => ({ spellings: [plain], weight: 0 })).map(({ text, detail, plain }) => ({
      kind: 'text',
      label: plain,
      detail,
      insert: text,
      replace,
    })),
  );
}

function machineOf(library: CompleteContext['library'], facts: CompleteContext['facts']): string {
  const [family] = familiesHere(library, facts);
  return family ? machineWord(family) : 'machine';
}

/** Standing notices for `use`; what may be said outright for `reads`. */
export function completeAttributeValue(
  { key, typed, replace }: At<'attribute value'>,
  { library, facts, text }: CompleteContext,
): Completions {
  const line = text.slice(0, replace.start).split('\n').length;
  const values =
    key === 'use'
      ? library.registers.notices.map(({ name, text: words }) => ({ value: name, detail: clipped(words) }))
      : key === 'reads' && facts
        ? readingChoices(facts, line).map((value) => ({ value, detail: 'said outright' }))
        : [];
  return cut(
    'braces',
    ranked(values, typed, ({ value }) => ({ spellings: [value], weight: 0 })).map(({ value, detail }) => ({
      kind: 'value',
      label: value,
      detail,
      insert: value,
      replace,
    })),
  );
}
