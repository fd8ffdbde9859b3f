/** Inline text to lines of a width: the words of items.ts broken by lines.ts, and what stands on each line put together again. */
import type { Inline } from '../book.ts';
import { hyphenated, type Item, itemsOf, partOf } from './items.ts';
import { breakLines, evened } from './lines.ts';
import type { Line, Look, Part, TextKit } from './parts.ts';
import { type Run, runsOf } from './runs.ts';
import { type Shaped, type Shaper, widthOfAll } from './shaped.ts';
import type { NodeId, StructureBuilder } from './structure.ts';
import type { Mp } from './units.ts';

export { chipPad, type Line, type Look, type Part, type TextKit } from './parts.ts';

/** Lines of at most `width`. Hyphens are tried only when the lines come out too uneven without. */
export function linesOf(inline: readonly Inline[], look: Look, node: NodeId, width: Mp, kit: TextKit): readonly Line[] {
  // Service text says the same again and again (lock out, tighten, refit): plain words are broken once for each width.
  const words = plainWords(inline);
  if (words === undefined || kit.spoken?.has(words)) return brokenLines(inline, look, node, width, kit);
  // What a table asked for the extent of is put together already.
  const whole = memoryOf(wholes, kit.shaper, faceKey(look)).get(words);
  if (whole !== undefined && whole.most <= width) return whole.line === undefined ? [] : [ownLine(whole.line, look, node)];
  const memory = memoryOf(broken, kit.shaper, `${faceKey(look)} ${look.even} ${width} ${kit.language}`);
  const found = memory.get(words);
  if (found !== undefined) return found.map((line) => ownLine(line, look, node));
  const lines = brokenLines(inline, look, node, width, kit);
  remember(memory, words, lines);
  return lines;
}

/** Of one look and element; undefined where there is more to it than words. */
function plainWords(inline: readonly Inline[]): string | undefined {
  const only = inline[0];
  return inline.length !== 1 || only?.kind !== 'text' || only.changed ? undefined : only.text;
}

const faceKey = (look: Look): string => `${look.face} ${look.size}`;

/** A remembered line, for this place. */
const ownLine = (line: Line, look: Look, node: NodeId): Line => ({
  width: line.width,
  parts: line.parts.map((part) => ({ ...part, look, node })),
});

/** For each look and width. */
const mostRemembered = 20_000;

/** Pure memory, by the fonts it holds for, then by look (and width), then by the words. */
type Memory<T> = WeakMap<Shaper, Map<string, Map<string, T>>>;
const broken: Memory<readonly Line[]> = new WeakMap();
/** All on one line; `line` is undefined where nothing is printed. */
interface Whole extends Widths {
  readonly line: Line | undefined;
}
const wholes: Memory<Whole> = new WeakMap();

function memoryOf<T>(memories: Memory<T>, shaper: Shaper, key: string): Map<string, T> {
  let all = memories.get(shaper);
  if (all === undefined) {
    all = new Map();
    memories.set(shaper, all);
  }
  let memory = all.get(key);
  if (memory === undefined) {
    memory = new Map();
    // Widths are as many as a table's columns: new ones all day.
    if (all.size >= 5_000) all.clear();
    all.set(key, memory);
  }
  return memory;
}

function remember<T>(memory: Map<string, T>, words: string, found: T): void {
  // A long day of edits must not fill the memory.
  if (memory.size >= mostRemembered) memory.clear();
  memory.set(words, found);
}

function brokenLines(inline: readonly Inline[], look: Look, node: NodeId, width: Mp, kit: TextKit): Line[] {
  const runs = runsOf(inline, look, node, kit);
  let items = itemsOf(runs, kit, width, false);
  if (items.length === 0) return [];
  // All on one line is always best where it fits.
  if (totalOf(items) <= width) return [composeLine(items, 0, items.length, kit)];
  const stretch = look.size * 3;
  const stub = look.size * 6;
  let breaks = breakLines(items, width, stretch, stub);
  if (look.even) breaks = evened(items, breaks, width, stretch, stub);
  // A line left short for the sake of the last one is no reason for a hyphen.
  else if (breaks.worst > 250 && breakLines(items, width, stretch, 0).worst > 250) {
    const divided = itemsOf(runs, kit, width, true);
    if (divided.length !== items.length) {
      items = divided;
      breaks = breakLines(items, width, stretch, stub);
    }
  }
  const lines: Line[] = [];
  let start = 0;
  for (const end of breaks.ends) {
    lines.push(composeLine(items, start, end, kit));
    start = items[end]?.kind === 'box' ? end : end + 1;
    while (items[start]?.kind === 'glue') start += 1;
  }
  return lines;
}

const totalOf = (items: readonly Item[]): Mp => {
  let sum = 0;
  for (const item of items) if (item.kind !== 'penalty') sum += item.width;
  return sum;
};

/** Width of the longest word and of the whole on one line. */
export interface Widths {
  readonly least: Mp;
  readonly most: Mp;
}

/** What a table needs to share out its columns. `structure`: where elements go that nobody will print. */
export function extentOf(inline: readonly Inline[], look: Look, kit: Omit<TextKit, 'structure'>, structure: StructureBuilder): Widths {
  const own = { ...kit, structure };
  const words = plainWords(inline);
  const memory = words === undefined ? undefined : memoryOf(wholes, kit.shaper, faceKey(look));
  const found = words === undefined ? undefined : memory?.get(words);
  if (found !== undefined) return found;
  const items = itemsOf(runsOf(inline, look, 0, own), own, Number.MAX_SAFE_INTEGER, false);
  let least = 0;
  let most = 0;
  for (const item of items) {
    if (item.kind === 'penalty') continue;
    most += item.width;
    if (item.kind === 'box') least = Math.max(least, item.width);
  }
  if (words === undefined || memory === undefined) return { least, most };
  const whole = { least, most, line: items.length === 0 ? undefined : composeLine(items, 0, items.length, own) };
  remember(memory, words, whole);
  return whole;
}

/** Collected here and then cut to length: lists that grow keep room for more, and there are as many as lines in the book. */
const wordsOf: Shaped[] = [];
const partsOf: Part[] = [];

/** Neighbouring words of one run, and the spaces between them, are one part. */
function composeLine(items: readonly Item[], start: number, end: number, kit: TextKit): Line {
  let whole = 0;
  let run: Run | undefined;
  let width = 0;
  let wordCount = 0;
  let partCount = 0;
  const close = (): void => {
    if (run !== undefined && wordCount > 0) partsOf[partCount++] = partOf(wordsOf.slice(0, wordCount), width, run);
    wordCount = 0;
    width = 0;
  };
  const add = (from: Run, shaped: readonly Shaped[], wide: Mp): void => {
    if (from !== run) close();
    run = from;
    for (const one of shaped) wordsOf[wordCount++] = one;
    width += wide;
    whole += wide;
  };
  for (let i = start; i < end; i += 1) {
    const item = items[i] as Item;
    if (item.kind === 'penalty') continue;
    if (item.run === undefined) {
      close();
      run = undefined;
      for (const part of item.parts ?? []) partsOf[partCount++] = part;
      whole += item.width;
    } else if (item.piece === undefined) add(item.run, item.shaped, item.width);
    else {
      const { text, last } = joinedPiece(items, i, end);
      const ender = items[end];
      const divided = last + 1 === end && ender?.kind === 'penalty' && ender.hyphen && ender.shaped.length > 0;
      const shaped = divided ? hyphenated(text, item.run, kit) : kit.shaper.shape(item.run.look.face, text);
      add(item.run, shaped, widthOfAll(shaped, item.run.look.size));
      i = last;
    }
  }
  close();
  return { parts: partsOf.slice(0, partCount), width: whole };
}

/** The pieces of a divided word that stay on this line, and the index of the last of them. */
function joinedPiece(items: readonly Item[], at: number, end: number): { readonly text: string; readonly last: number } {
  const first = items[at] as Item;
  let text = first.piece as string;
  let last = at;
  while (last + 2 < end) {
    const between = items[last + 1] as Item;
    const next = items[last + 2] as Item;
    if (between.kind !== 'penalty' || !between.hyphen || next.piece === undefined || next.run !== first.run) break;
    text += next.piece;
    last += 2;
  }
  return { text, last };
}
