/** The names one procedure may use: its families, its front matter and sections, the library. Ambiguous names give every thing. */
import { foldText, type Procedure } from '../format/index.ts';
import type { Family, Names, ProcedureHead, Registers, Thing, ThingKind } from './model.ts';
import { type Match, NameLayer } from './name-trie.ts';
import { nearestNames } from './nearest.ts';
import { familiesOf } from './variants.ts';
import { foldWords } from './words.ts';

export function namesFor(head: ProcedureHead, tree: Procedure, registers: Registers, procedures: ReadonlyMap<string, string>): Names {
  const own = new NameLayer();
  for (const measurement of head.measurements) own.add('measurement', measurement.name);
  for (const { name } of head.roles) own.add('role', name);
  for (const section of tree.sections) if (!section.prose) own.addWhole({ kind: 'section', name: section.title });
  const families = familiesOf(head, registers).map(familyLayer);
  return new LayeredNames([...families, libraryLayer(registers), procedureLayer(procedures), own]);
}

/** Layers that many procedures share, by the values they were made from: a register edit makes new values. */
const FAMILIES = new WeakMap<Family, NameLayer>();
const LIBRARIES = new WeakMap<Registers, NameLayer>();
const PROCEDURES = new WeakMap<ReadonlyMap<string, string>, { readonly size: number; readonly layer: NameLayer }>();

const KINDS = [
  ['source', 'sources'],
  ['point', 'points'],
  ['control', 'controls'],
  ['cover', 'covers'],
  ['zone', 'zones'],
  ['part', 'parts'],
  ['fastener', 'fasteners'],
  ['gauge', 'gauges'],
] as const satisfies readonly (readonly [ThingKind, keyof Family])[];

function familyLayer(family: Family): NameLayer {
  const known = FAMILIES.get(family);
  if (known) return known;
  const layer = new NameLayer();
  for (const [kind, list] of KINDS) for (const { name, aliases } of family[list]) layer.add(kind, name, aliases, family.name);
  layer.add('machine', family.name, family.aliases, family.name);
  FAMILIES.set(family, layer);
  return layer;
}

function libraryLayer(registers: Registers): NameLayer {
  const known = LIBRARIES.get(registers);
  if (known) return known;
  const layer = new NameLayer();
  for (const { name, aliases } of registers.tools) layer.add('tool', name, aliases);
  for (const { name, aliases } of registers.consumables) layer.add('consumable', name, aliases);
  for (const { name, aliases } of registers.replacements) layer.add('replacement', name, aliases);
  for (const { name, aliases } of registers.options) layer.add('option', name, aliases);
  for (const { name, aliases } of registers.models) layer.add('model', name, aliases);
  for (const { number, aliases } of registers.documents) layer.add('document', number, aliases);
  LIBRARIES.set(registers, layer);
  return layer;
}

function procedureLayer(procedures: ReadonlyMap<string, string>): NameLayer {
  const known = PROCEDURES.get(procedures);
  if (known && known.size === procedures.size) return known.layer;
  const layer = new NameLayer();
  for (const number of procedures.keys()) layer.add('procedure', number);
  PROCEDURES.set(procedures, { size: procedures.size, layer });
  return layer;
}

class LayeredNames implements Names {
  readonly version: string;
  private readonly layers: readonly NameLayer[];
  /** Each bracket is looked up by several checks. */
  private readonly asked = new Map<string, readonly Thing[]>();

  constructor(layers: readonly NameLayer[]) {
    this.layers = layers;
    this.version = layers.map((layer) => layer.version).join('/');
  }

  match(words: readonly string[], at: number): ReturnType<Names['match']> {
    let best: Match | undefined;
    for (const layer of this.layers) {
      const found = layer.match(words, at);
      if (!found) continue;
      if (!best || found.length > best.length || (found.length === best.length && found.folds < best.folds)) best = found;
      else if (found.length === best.length && found.folds === best.folds)
        best = { ...best, things: together([...best.things, ...found.things]) };
    }
    return best && { length: best.length, things: best.things, plural: best.plural };
  }

  lookup(name: string): readonly Thing[] {
    const known = this.asked.get(name);
    if (known) return known;
    const found = this.look(name);
    this.asked.set(name, found);
    return found;
  }

  private look(name: string): readonly Thing[] {
    const key = foldText(name);
    const found = together(this.layers.flatMap((layer) => layer.exact(key)));
    if (found.length > 0) return found;
    const words = foldWords(name).map(({ word }) => word);
    const matched = words.length > 0 ? this.match(words, 0) : undefined;
    return matched && matched.length === words.length ? matched.things : [];
  }

  nearest(name: string, kinds?: readonly ThingKind[]): readonly string[] {
    // A guess at an isolation point may be the wrong valve: those are never offered (F3).
    const offered = this.layers
      .flatMap((layer) => layer.spelled)
      .filter(({ kind }) => kind !== 'point' && (!kinds || kinds.includes(kind)));
    return nearestNames(name, [...new Set(offered.map((entry) => entry.name))]);
  }

  ending(name: string, kinds: readonly ThingKind[]): readonly Thing[] {
    const wanted = stem(foldText(name));
    if (wanted === '') return [];
    const found = this.layers
      .flatMap((layer) => layer.spelled)
      .filter((one) => kinds.includes(one.kind) && stem(foldText(one.name)).endsWith(` ${wanted}`))
      .flatMap((one) => this.lookup(one.name).filter(({ kind }) => kind === one.kind));
    return [...together(found)].sort((a, b) => (a.name < b.name ? -1 : 1));
  }
}

/** "screws" as "screw": enough to tell whether one name ends in another. */
const stem = (folded: string): string => folded.replace(/s$/, '');

/** A thing that two families have under one name and kind is one thing to whoever stands before one machine. */
function together(things: readonly Thing[]): readonly Thing[] {
  return things.filter((thing, index) => things.findIndex((other) => other.kind === thing.kind && other.name === thing.name) === index);
}
