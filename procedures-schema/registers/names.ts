/** The names one procedure may use, as a trie over folded words: longest match, plurals folded, every thing of that name. */
import { foldText, type Procedure } from '../format/index.ts';
import type { Family, Names, ProcedureHead, Registers, Thing, ThingKind } from './model.ts';
import { nearestNames } from './nearest.ts';
import { familiesOf } from './variants.ts';
import { foldWords, singularsOf } from './words.ts';

interface Node {
  readonly next: Map<string, Node>;
  things: Thing[];
}

export function namesFor(head: ProcedureHead, tree: Procedure, registers: Registers, procedures: ReadonlyMap<string, string>): Names {
  const named = new NameTable();
  for (const family of familiesOf(head, registers)) addFamily(named, family);
  addLibrary(named, registers, procedures);
  for (const measurement of head.measurements) named.add('measurement', measurement.name, []);
  for (const { name } of head.roles) named.add('role', name, []);
  for (const section of tree.sections) if (!section.prose) named.addExact({ kind: 'section', name: section.title });
  return named;
}

function addFamily(named: NameTable, family: Family): void {
  const kinds: readonly (readonly [ThingKind, readonly { readonly name: string; readonly aliases: readonly string[] }[]])[] = [
    ['source', family.sources],
    ['point', family.points],
    ['control', family.controls],
    ['cover', family.covers],
    ['zone', family.zones],
    ['part', family.parts],
    ['fastener', family.fasteners],
    ['gauge', family.gauges],
  ];
  for (const [kind, things] of kinds) for (const { name, aliases } of things) named.add(kind, name, aliases, family.name);
  named.add('machine', family.name, family.aliases, family.name);
}

function addLibrary(named: NameTable, registers: Registers, procedures: ReadonlyMap<string, string>): void {
  for (const { name, aliases } of registers.tools) named.add('tool', name, aliases);
  for (const { name, aliases } of registers.consumables) named.add('consumable', name, aliases);
  for (const { name, aliases } of registers.replacements) named.add('replacement', name, aliases);
  for (const { name, aliases } of registers.options) named.add('option', name, aliases);
  for (const { name } of registers.models) named.add('model', name, []);
  for (const { number, aliases } of registers.documents) named.add('document', number, aliases);
  for (const number of procedures.keys()) named.add('procedure', number, []);
}

class NameTable implements Names {
  private readonly root: Node = { next: new Map(), things: [] };
  private readonly whole = new Map<string, Thing[]>();
  private readonly spelled: { readonly name: string; readonly kind: ThingKind }[] = [];
  private hash = 0;
  private count = 0;

  get version(): string {
    return `${this.count}:${this.hash}`;
  }

  add(kind: ThingKind, name: string, aliases: readonly string[], family?: string): void {
    const thing: Thing = { kind, name, ...(family === undefined ? {} : { family }) };
    for (const spelling of [name, ...aliases]) {
      this.addExact(thing, spelling);
      this.spelled.push({ name: spelling, kind });
      let node = this.root;
      for (const { word } of foldWords(spelling)) {
        const next = node.next.get(word) ?? { next: new Map(), things: [] };
        node.next.set(word, next);
        node = next;
      }
      if (node !== this.root && !node.things.some((other) => other.kind === kind && other.name === name)) node.things.push(thing);
    }
  }

  addExact(thing: Thing, spelling = thing.name): void {
    const key = foldText(spelling);
    const known = this.whole.get(key) ?? [];
    if (!known.some((other) => other.kind === thing.kind && other.name === thing.name)) this.whole.set(key, [...known, thing]);
    this.count += 1;
    for (const character of `${thing.kind}|${thing.name}|${key}|${thing.family ?? ''}`)
      this.hash = (this.hash * 31 + (character.codePointAt(0) ?? 0)) % 4_294_967_291;
  }

  match(words: readonly string[], at: number): ReturnType<Names['match']> {
    let best: { length: number; things: readonly Thing[]; plural: boolean } | undefined;
    // Any word of a name may be plural ("motors bolts" is not written, "guard screws" is); the last one says whether it was.
    const step = (node: Node, index: number, plural: boolean): void => {
      if (node.things.length > 0 && (!best || index - at > best.length)) best = { length: index - at, things: node.things, plural };
      const word = words[index];
      if (word === undefined) return;
      const own = node.next.get(word);
      if (own) step(own, index + 1, false);
      for (const singular of singularsOf(word).slice(1)) {
        const next = node.next.get(singular);
        if (next) step(next, index + 1, true);
      }
      // The register may name the plural ("guard screws") and the writer one of them ("the guard screw").
      const many = node.next.get(`${word}s`) ?? node.next.get(`${word}es`);
      if (many) step(many, index + 1, false);
    };
    step(this.root, at, false);
    return best;
  }

  lookup(name: string): readonly Thing[] {
    const found = this.whole.get(foldText(name));
    if (found) return found;
    const words = foldWords(name).map(({ word }) => word);
    const matched = words.length > 0 ? this.match(words, 0) : undefined;
    return matched && matched.length === words.length ? matched.things : [];
  }

  nearest(name: string, kinds?: readonly ThingKind[]): readonly string[] {
    // A guess at an isolation point may be the wrong valve: those are never offered (F3).
    const offered = this.spelled.filter(({ kind }) => kind !== 'point' && (!kinds || kinds.includes(kind)));
    return nearestNames(name, [...new Set(offered.map((entry) => entry.name))]);
  }
}
