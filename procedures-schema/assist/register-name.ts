/** Writes a new name down in the register where it belongs (F15): one edit, at the end of its list. What else the entry needs, the checks ask. */
import type { LibraryFacts } from '../checks/index.ts';
import type { TextEdit } from '../finding.ts';
import { foldText, type YamlFile, type YamlMap } from '../format/index.ts';
import type { ThingKind } from '../registers/index.ts';
import type { KindGuess, Proposal } from './model.ts';
import { proposalOf, textsOf } from './proposals.ts';
import { addEntry, entryLines, entryOf, setEntry, type YamlValue } from './yaml-edit.ts';

/** Path of the list in its file, and what an entry holds at the least. */
const LISTS: Partial<Readonly<Record<ThingKind, { readonly path: (family: string) => readonly string[]; readonly entry: YamlValue }>>> = {
  point: { path: (family) => ['families', family, 'points'], entry: {} },
  control: { path: (family) => ['families', family, 'controls'], entry: {} },
  cover: { path: (family) => ['families', family, 'covers'], entry: {} },
  zone: { path: (family) => ['families', family, 'zones'], entry: {} },
  part: { path: (family) => ['families', family, 'parts'], entry: {} },
  fastener: { path: (family) => ['families', family, 'fasteners'], entry: {} },
  gauge: { path: (family) => ['families', family, 'gauges'], entry: {} },
  tool: { path: () => ['tools'], entry: {} },
  consumable: { path: () => ['consumables'], entry: {} },
  replacement: { path: () => ['parts'], entry: {} },
};

export function registerName(
  name: string,
  guess: KindGuess,
  library: LibraryFacts,
  more: { readonly title?: string; readonly ask?: string } = {},
): Proposal {
  const own = name.replace(/\s+/g, ' ').trim();
  if (own === '' || /[[\]{}|`*\\<>]/.test(own)) return { ok: false, reason: `"${own}" cannot be a name.` };
  const list = guess.kind === 'document' ? documentList(more) : LISTS[guess.kind];
  if (!list) return { ok: false, reason: `A ${guess.kind} is not written down by itself.` };
  const path = list.path(guess.family ?? '');
  const file = library.registerFiles.find((one) => one.file.source.path === guess.file)?.file;
  const edit = intoList(file, guess.file, path, own, list.entry);
  if (typeof edit === 'string') return { ok: false, reason: edit };
  return proposalOf(`Register ${own} as ${guess.words}`, [edit], textsOf(library));
}

function documentList({ title, ask }: { readonly title?: string; readonly ask?: string }) {
  return { path: () => ['documents'], entry: { title: title ?? '', ask: ask ?? '' } };
}

/** The entry at the end of the list; lists and files that are not there are made. A sentence where it cannot be. */
function intoList(file: YamlFile | undefined, path: string, keys: readonly string[], name: string, entry: YamlValue): TextEdit | string {
  const text = file?.source.text ?? '';
  const yaml = { file: path, text };
  if (file?.root?.kind !== 'map') {
    if (text.trim() !== '' && file?.root !== undefined) return `${path} is not a list of entries; mend it first.`;
    const gap = text === '' || text.endsWith('\n') ? '' : '\n';
    return { file: path, start: text.length, end: text.length, text: gap + nested([...keys, name], entry, 0) };
  }
  let map: YamlMap = file.root;
  for (const [index, key] of keys.entries()) {
    const found = entryOf(map, key);
    const rest = wrap([...keys.slice(index + 1), name], entry);
    if (!found) return addEntry(yaml, map, key, rest, map.entries.at(-1));
    if (found.value?.kind === 'map') map = found.value;
    else if (found.value === undefined || (found.value.kind === 'scalar' && found.value.text.trim() === ''))
      return setEntry(yaml, map, found, rest);
    else return `In ${path}, "${key}" holds no entries; mend it first.`;
  }
  if (map.entries.some(({ key }) => foldText(key.text) === foldText(name))) return `${path} has "${name}" already.`;
  return addEntry(yaml, map, name, entry, map.entries.at(-1));
}

function wrap(keys: readonly string[], entry: YamlValue): YamlValue {
  return keys.reduceRight<YamlValue>((inner, key) => ({ [key]: inner }), entry);
}

function nested(keys: readonly string[], entry: YamlValue, indent: number): string {
  const [first = '', ...rest] = keys;
  return entryLines(first, rest.length === 0 ? entry : wrap(rest, entry), indent);
}
