/** What stands before the steps of a procedure: at a glance, what is needed, the energy on the machine, what is measured. */
import type { Family, ListedName, Registers } from '../../procedures-schema/index.ts';
import type { BookBlock, Flow, Inline } from '../book.ts';
import { listedFor, modelsOf } from './edition.ts';
import { energyOf } from './energy-lines.ts';
import { titleOf } from './inline.ts';
import { limitCell, outcomeCell } from './limits-text.ts';
import { chapterAnchor, type Scope } from './scope.ts';
import { valuesIn } from './units-edition.ts';

type Row = readonly (readonly Inline[])[];
const text = (said: string): Inline[] => (said === '' ? [] : [{ kind: 'text', text: said }]);
const strong = (said: string): Inline[] => [{ kind: 'strong', text: said }];

export function frontOf(scope: Scope): Flow {
  return [...glance(scope), ...needs(scope), ...energy(scope), ...measured(scope)];
}

const table = (head: readonly string[], rows: readonly Row[]): Extract<BookBlock, { kind: 'table' }> => ({
  kind: 'table',
  head: head.map(text),
  rows,
  align: head.map(() => 'left'),
  full: true,
});

function glance(scope: Scope): BookBlock[] {
  const { words, facts, input } = scope;
  const { head } = facts;
  const ends = head.endsWith ?? (head.startsWith === 'live' ? 'closed' : head.startsWith);
  const before = head.requires.flatMap(({ name }, index): Inline[] => {
    const said = [name, titleOf(name, scope)].filter(Boolean).join(', ');
    const here = scope.inBook.has(name);
    return [
      ...text(index === 0 ? '' : '; '),
      here ? { kind: 'link', text: said, anchor: chapterAnchor(name), page: true } : { kind: 'text', text: said },
    ];
  });
  const rows: [string, string | Inline[]][] = [
    [words.glance.models, modelsOf(scope).join(', ')],
    [words.glance.symptoms, head.symptoms.map(({ name }) => name).join('; ')],
    [words.glance.starts, words.state[head.startsWith] ?? head.startsWith],
    [words.glance.ends, words.state[ends] ?? ends],
    [words.glance.requires, before],
    [words.glance.people, head.people ?? ''],
    [words.glance.audience, head.audience ?? ''],
    [words.glance.time, head.time ?? ''],
    [words.glance.liveTask, head.liveTask?.because ?? ''],
    [words.glance.edition, input.model === undefined ? '' : words.onlyModel.replace('{model}', input.model)],
  ];
  const shown = rows
    .filter(([, said]) => said.length > 0)
    .map(([name, said]): Row => [strong(name), typeof said === 'string' ? text(said) : said]);
  // The same columns in every procedure: the eye learns where to look.
  return [{ kind: 'table', head: [], rows: shown, align: ['left', 'left'], full: true, widths: [280, 720] }];
}

/** Everything to fetch before walking to the machine. */
function needs(scope: Scope): BookBlock[] {
  const { words, facts } = scope;
  const { head } = facts;
  const { registers } = scope.input.library;
  const groups: readonly (readonly [string, readonly ListedName[]])[] = [
    [words.kinds.tools, head.tools],
    [words.kinds.parts, head.parts],
    [words.kinds.consumables, head.consumables],
    [words.kinds.protection, head.protection],
  ];
  // A table a kind, so that its head says the kind again where it goes over a page.
  const tables = groups.flatMap(([kind, list]): BookBlock[] => {
    const rows = list
      .filter((entry) => entry.name !== 'none' && listedFor(entry, scope))
      .map(
        (entry): Row => [
          text(entry.name),
          text(detailOf(entry, registers, scope, false)),
          text(entry.quantity ?? amountOf(entry, registers) ?? '1'),
        ],
      );
    if (rows.length === 0) return [];
    return [{ ...table([kind, words.needsHead[2], words.needsHead[3]], rows), widths: [400, 470, 130] }];
  });
  if (tables.length === 0) return [];
  // Fetched in one go: all on one page where they fit.
  const joined = tables.map((one, index): BookBlock => (index === 0 || one.kind !== 'table' ? one : { ...one, joins: true }));
  return [{ kind: 'heading', level: 2, text: words.needs, bookmark: false }, ...joined];
}

/** Size, range and number from the registers, then for which models and the writer's note. `amount`: how much of a consumable, where no column says it. */
export function detailOf(entry: ListedName, registers: Registers, scope: Pick<Scope, 'words'>, amount = true): string {
  const named = <T extends { readonly name: string; readonly aliases: readonly string[] }>(list: readonly T[]): T | undefined =>
    list.find((one) => one.name === entry.name || one.aliases.includes(entry.name));
  const tool = named(registers.tools);
  const part = named(registers.replacements);
  const consumable = named(registers.consumables);
  const facts = [
    tool?.size,
    tool?.range,
    tool?.resolution === undefined ? undefined : scope.words.resolution.replace('{n}', tool.resolution),
    part?.number === undefined ? undefined : scope.words.partNumber.replace('{n}', part.number),
    consumable?.rating,
    amount ? consumable?.amount : undefined,
    consumable?.safetyData === undefined ? undefined : scope.words.safetyData.replace('{n}', consumable.safetyData),
    entry.models === undefined ? undefined : `${scope.words.only} ${entry.models.join(', ')}`,
    entry.note,
  ];
  return facts.filter((fact): fact is string => fact !== undefined && fact !== '').join('; ');
}

/** How much of a consumable one job takes, as the register says. */
const amountOf = (entry: ListedName, { consumables }: Registers): string | undefined =>
  consumables.find((one) => one.name === entry.name || one.aliases.includes(entry.name))?.amount;

function energy(scope: Scope): BookBlock[] {
  const { words } = scope;
  const families = energyOf(scope);
  return families.flatMap(({ family, sources }): BookBlock[] => {
    const rows = sources.map(
      ({ name, size, only, cutOff, stored, proved }): Row => [
        [...strong(name), ...text(`, ${size}${only === '' ? '' : ` (${only})`}`)],
        text(cutOff || words.none),
        text(stored || words.none),
        text(proved.join(` ${words.or} `) || words.none),
      ],
    );
    const known = scope.input.library.registers.families.find((one) => one.name === family);
    const title = families.length === 1 ? words.energy : `${words.energy}: ${family}`;
    return [
      { kind: 'heading', level: 2, text: title, bookmark: false },
      { ...table(words.energyHead, rows), whole: true, notes: absent(known, words) },
    ];
  });
}

function absent(family: Family | undefined, words: Scope['words']): BookBlock[] {
  const said = (family?.none ?? []).map(({ kind, because }) => `${kind} (${because})`).join(', ');
  return said === '' ? [] : [{ kind: 'paragraph', style: 'small', inline: text(words.notHere.replace('{kinds}', said)) }];
}

function measured(scope: Scope): BookBlock[] {
  const { words, facts } = scope;
  const rows = facts.head.measurements.map((measurement): Row => {
    const where = [measurement.at, measurement.with]
      .flatMap((part) => (part === undefined ? [] : [valuesIn(part, scope.input)]))
      .join('; ');
    if (measurement.sensed !== undefined) {
      const { pass, fail } = measurement.sensed;
      return [
        strong(measurement.name),
        text(where),
        outcomeCell([
          [words.passes, valuesIn(pass, scope.input)],
          [words.fails, valuesIn(fail, scope.input)],
        ]),
      ];
    }
    // What a formula comes to is printed, not the formula: nobody works one out at a machine.
    const limits = limitCell(measurement, scope);
    return [strong(measurement.name), text(where), limits.length === 0 ? text(words.noLimit) : limits];
  });
  if (rows.length === 0) return [];
  return [{ kind: 'heading', level: 2, text: words.measured, bookmark: false }, table(words.measuredHead, rows)];
}
