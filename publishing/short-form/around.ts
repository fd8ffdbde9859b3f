/** What stands before the first line of a short form and after the last: what is needed, the energy on the machine, cautions, and who did it. */
import type { ListedName } from '../../procedures-schema/index.ts';
import type { BookBlock, EntryCell, Flow, Inline, TasksBlock } from '../book.ts';
import { detailOf, energyOf, listedFor, modelsOf, type Scope, wordsOf } from '../compose/index.ts';

/** Each after its name, all in one paragraph. */
const line = (all: readonly (readonly [name: string, said: string])[]): BookBlock => ({
  kind: 'paragraph',
  style: 'listed',
  inline: all.flatMap(([name, said], index): Inline[] => [
    { kind: 'strong', text: `${index === 0 ? '' : '\u2003'}${name}: ` },
    { kind: 'text', text: said },
  ]),
});

/** `part`: which part of a set the checklist belongs to, where others were left out. */
export function beforeSteps(scope: Scope, tasks: readonly TasksBlock[], part?: string): Flow {
  const { words, facts, input } = scope;
  const { head } = facts;
  const short = wordsOf(input).short;
  const field = (name: string): string => `${head.id}, ${name}`;
  const models = modelsOf(scope);
  const cells: EntryCell[] = [
    { label: short.model, share: 500, options: models, field: field(short.model) },
    { label: short.site, share: 310, field: field(short.site) },
    { label: short.started, share: 190, field: field(short.started) },
  ];
  const ends = head.endsWith ?? (head.startsWith === 'live' ? 'closed' : head.startsWith);
  const state = (name: string): string => words.state[name] ?? name;
  const facts2: [string, string][] = [
    [words.glance.starts, state(head.startsWith)],
    [words.glance.ends, state(ends)],
    [words.glance.requires, head.requires.map(({ name }) => name).join(', ')],
    [words.glance.people, head.people ?? ''],
    [words.glance.audience, head.audience ?? ''],
    [words.glance.time, head.time ?? ''],
    [words.glance.liveTask, head.liveTask?.because ?? ''],
  ];
  const glance = facts2.filter(([, said]) => said !== '');
  const edition =
    input.model === undefined
      ? []
      : [line([[words.glance.edition, [words.onlyModel.replace('{model}', input.model), part ?? ''].join(' ').trim()]])];
  return [
    { kind: 'entries', rows: [cells] },
    line(glance),
    ...edition,
    ...needs(scope),
    ...energy(scope),
    { kind: 'paragraph', style: 'small', inline: [{ kind: 'text', text: short.cautions }] },
    { kind: 'paragraph', style: 'small', inline: [{ kind: 'strong', text: short.how }] },
    ...bandKey(tasks),
  ];
}

/** Only of the stripes that stand beside its lines. */
function bandKey(tasks: readonly TasksBlock[]): Flow {
  const states = new Set(
    tasks.flatMap(({ items }) => items.flatMap((item) => (item.kind === 'task' && item.band !== undefined ? [item.band] : []))),
  );
  return states.size === 0 ? [] : [{ kind: 'band-key', compact: true, states: [...states] }];
}

function needs(scope: Scope): Flow {
  const { words, facts, input } = scope;
  const { head } = facts;
  const { registers } = input.library;
  const group = (kind: string, list: readonly ListedName[], detailed: boolean): (readonly [string, string])[] => {
    const shown = list.filter((entry) => entry.name !== 'none' && listedFor(entry, scope));
    if (shown.length === 0) return [];
    const said = shown.map((entry) => {
      const { models: _, note: __, ...bare } = entry;
      const detail = detailOf(detailed ? entry : { ...bare, ...conditions(entry) }, registers, scope);
      const count = entry.quantity === undefined || entry.quantity === '1' ? '' : `${entry.quantity}\u00a0\u00d7\u00a0`;
      return `${count}${entry.name}${detail === '' || (!detailed && !conditional(entry)) ? '' : ` (${detail})`}`;
    });
    return [[kind, said.join(', ')]];
  };
  const fetched = [
    ...group(words.kinds.tools, head.tools, false),
    ...group(words.kinds.parts, head.parts, true),
    ...group(words.kinds.consumables, head.consumables, true),
  ];
  // What protects somebody has a line of its own.
  return [fetched, group(words.kinds.protection, head.protection, false)].flatMap((lists) => (lists.length === 0 ? [] : [line(lists)]));
}

const conditional = (entry: ListedName): boolean => (entry.models?.length ?? 0) > 0 || entry.note !== undefined;
const conditions = (entry: ListedName): Partial<ListedName> => ({
  ...(entry.models === undefined ? {} : { models: entry.models }),
  ...(entry.note === undefined ? {} : { note: entry.note }),
});

/** One line a source: what cuts it off, what lets out or holds the rest and how long that takes, what proves it dead. */
function energy(scope: Scope): Flow {
  const { words, input } = scope;
  const short = wordsOf(input).short;
  const families = energyOf(scope);
  const said = families.flatMap(({ family, sources }) =>
    sources.map(({ name, size, only, cutOff, stored, proved }): Inline[] => {
      const parts: [string, string][] = [
        [short.cutOff, cutOff],
        [short.stored, stored],
        [short.shown, proved.join(` ${words.or} `)],
      ];
      const rest = parts.filter(([, things]) => things !== '').map(([how, things]) => ` ${how.replaceAll(' ', '\u00a0')}: ${things}.`);
      const whose = families.length === 1 ? '' : `${family}: `;
      const what = [name, size].filter((part) => part !== undefined && part !== '').join(', ');
      return [
        { kind: 'strong', text: `${whose}${what}${only === '' ? '' : ` (${only})`}.` },
        { kind: 'text', text: rest.join('') },
      ];
    }),
  );
  if (said.length === 0) return [];
  return [
    { kind: 'paragraph', inline: [{ kind: 'strong', text: words.energy }] },
    { kind: 'bullets', items: said.map((inline): Flow => [{ kind: 'paragraph', style: 'listed', inline }]) },
  ];
}

export function afterSteps(scope: Scope): Flow {
  const { words, facts, input } = scope;
  const short = wordsOf(input).short;
  const { head } = facts;
  const field = (name: string): string => `${head.id}, ${short.sign}, ${name}`;
  const ends = head.endsWith ?? (head.startsWith === 'live' ? 'closed' : head.startsWith);
  const states = [...new Set([ends, 'out of service'])].map((name) => words.state[name] ?? name);
  // Whoever did the work is done when it is finished: one date says both.
  const person = (label: string, when = short.date): EntryCell[] => [
    { label, share: 450, field: field(label) },
    { label: short.initials, share: 160, field: field(`${label}, ${short.initials}`) },
    { label: when, share: 390, field: field(`${label}, ${when}`) },
  ];
  const roles = head.roles.map(({ name }) => `${name.charAt(0).toUpperCase()}${name.slice(1)}`);
  return [
    { kind: 'heading', level: 2, text: short.sign, bookmark: true, anchor: `doc ${head.id} sign` },
    {
      kind: 'entries',
      rows: [
        [
          { label: short.remarks, share: 610, lines: 2, field: field(short.remarks) },
          { label: short.left, share: 390, options: states, field: field(short.left) },
        ],
        person(short.done, short.finished),
        ...roles.map((role) => person(role)),
        person(short.checked),
      ],
    },
  ];
}
