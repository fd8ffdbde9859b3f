/**
 * Names as a trie over folded words: every thing of the longest name that starts at a word, plurals folded. A layer never changes once
 * it is made, so that families and libraries share theirs among procedures.
 */
import { foldText } from '../format/index.ts';
import type { Thing, ThingKind } from './model.ts';
import { foldWords, formsOf } from './words.ts';

interface Node {
  readonly next: Map<string, Node>;
  /** From a word as typed to where it leads: made with the names, so that looking up is one step for each word of a sentence. */
  readonly forms: Map<string, readonly Way[]>;
  readonly things: Thing[];
}
interface Way {
  readonly node: Node;
  readonly plural: boolean;
  readonly folds: 0 | 1;
}

const newNode = (): Node => ({ next: new Map(), forms: new Map(), things: [] });

export interface Match {
  readonly length: number;
  readonly things: readonly Thing[];
  readonly plural: boolean;
  /** Words that were folded to match: of two names of one length the one as written counts. */
  readonly folds: number;
}

export class NameLayer {
  private readonly root: Node = newNode();
  private readonly whole = new Map<string, Thing[]>();
  readonly spelled: { readonly name: string; readonly kind: ThingKind }[] = [];
  private readonly hash = [0, 0];
  private count = 0;

  /** Differs when any name does. */
  get version(): string {
    return `${this.count}.${this.hash.join('.')}`;
  }

  add(kind: ThingKind, name: string, aliases: readonly string[] = [], family?: string): void {
    const thing: Thing = { kind, name, ...(family === undefined ? {} : { family }) };
    for (const spelling of [name, ...aliases]) {
      this.addWhole(thing, spelling);
      this.spelled.push({ name: spelling, kind });
      let node = this.root;
      for (const { word } of foldWords(spelling)) {
        node = node.next.get(word) ?? grow(node, word);
      }
      if (node !== this.root && !node.things.some((other) => same(other, thing))) node.things.push(thing);
    }
  }

  /** Found by `[...]` only, never inside a sentence: section titles. */
  addWhole(thing: Thing, spelling = thing.name): void {
    const key = foldText(spelling);
    const known = this.whole.get(key);
    if (!known) this.whole.set(key, [thing]);
    else if (!known.some((other) => same(other, thing))) known.push(thing);
    this.count += 1;
    const text = `${thing.kind}|${thing.name}|${key}|${thing.family ?? ''}`;
    for (let at = 0; at < text.length; at += 1) {
      const code = text.charCodeAt(at);
      this.hash[0] = ((this.hash[0] ?? 0) * 31 + code) % 4_294_967_291;
      this.hash[1] = ((this.hash[1] ?? 0) * 65_599 + code) % 4_294_967_279;
    }
  }

  exact(key: string): readonly Thing[] {
    return this.whole.get(key) ?? [];
  }

  match(words: readonly string[], at: number): Match | undefined {
    // Most words of a sentence start no name.
    if (!this.root.forms.has(words[at] ?? '')) return undefined;
    let best: Match | undefined;
    // Any word of a name may be written in the plural of the registered one, or in its singular; the last one says which.
    const step = (node: Node, index: number, plural: boolean, folds: number): void => {
      const length = index - at;
      if (node.things.length > 0 && (!best || length > best.length || (length === best.length && folds < best.folds)))
        best = { length, things: node.things, plural, folds };
      const word = words[index];
      const ways = word === undefined ? undefined : node.forms.get(word);
      if (ways) for (const way of ways) step(way.node, index + 1, way.plural, folds + way.folds);
    };
    step(this.root, at, false, 0);
    return best;
  }
}

function grow(node: Node, word: string): Node {
  const next = newNode();
  node.next.set(word, next);
  const add = (form: string, way: Way): void => {
    node.forms.set(form, [...(node.forms.get(form) ?? []), way]);
  };
  const { plurals, singulars } = formsOf(word);
  add(word, { node: next, plural: false, folds: 0 });
  for (const form of plurals) add(form, { node: next, plural: true, folds: 1 });
  for (const form of singulars) add(form, { node: next, plural: false, folds: 1 });
  return next;
}

function same(a: Thing, b: Thing): boolean {
  return a.kind === b.kind && a.name === b.name && a.family === b.family;
}
