/** Inline text to lines: words, ties, hyphens and references become boxes, glue and penalties. Leaves the choice of breaks to lines.ts. */
import LineBreaker from 'linebreak';
import type { Inline } from '../book.ts';
import { pushChunks } from './chunks.ts';
import { hyphenate } from './hyphenate.ts';
import { type BreakItem, breakLines, evened } from './lines.ts';
import type { PrintedWords } from './printed-words.ts';
import { type Shaped, type Shaper, widthOf, widthOfAll } from './shaped.ts';
import type { NodeId, StructureBuilder } from './structure.ts';
import type { Colour, TextLook } from './style.ts';
import { tied } from './ties.ts';
import { type Mp, pt } from './units.ts';

export interface Look {
  /** Lines of about the same length, as titles want them; no hyphens. */
  readonly even?: true;
  readonly face: TextLook['face'];
  readonly size: Mp;
  readonly colour: Colour;
}

/** What stands on a line, left to right. */
export type Part =
  | { readonly kind: 'text'; readonly shaped: Shaped; readonly look: Look; readonly width: Mp; readonly node: NodeId; readonly to?: string }
  /** A page number filled in when the pages are known; `width` is what was kept for it. */
  | { readonly kind: 'page'; readonly anchor: string; readonly look: Look; readonly width: Mp; readonly node: NodeId; readonly to: string }
  /** Words in a rounded frame. */
  | { readonly kind: 'chip'; readonly shaped: readonly Shaped[]; readonly look: Look; readonly width: Mp; readonly node: NodeId };

export interface Line {
  readonly parts: readonly Part[];
  readonly width: Mp;
}

export interface TextKit {
  readonly shaper: Shaper;
  readonly structure: StructureBuilder;
  readonly words: PrintedWords;
  readonly language: string;
  readonly linkColour: Colour;
  /** Width kept for the page number of an anchor, in a look. */
  readonly reserve: (anchor: string, look: Look) => Mp;
  /** Page index of an anchor as the pass before left it; undefined in the first. */
  readonly pageBefore: (anchor: string) => number | undefined;
  /** Whether a reference standing at `near` needs the page number of `anchor`: they were on different pages. */
  readonly away: (near: string, anchor: string) => boolean;
}

interface Run {
  readonly text: string;
  readonly look: Look;
  readonly node: NodeId;
  readonly to?: string;
  readonly page?: string;
  readonly chip?: boolean;
}

/** Stands in the joined text for a thing that is not text; UAX #14 class CB or, for page numbers, digits. */
const chipMark = '\ufffc';
const pageMark = '8';

export const chipPad: Mp = pt(3.5);

/** Invisible characters that steer breaks or direction and print nothing. */
const silent = /[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff]/g;

const cleaned = (text: string): string =>
  text
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
    .replace(/[\t\n\v\f\r\u0085\u2028\u2029]+/g, ' ')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out here
    .replace(/[\u0000-\u001f\u007f-\u009f]/g, '')
    .normalize('NFC');

function runsOf(inline: readonly Inline[], base: Look, node: NodeId, kit: TextKit): Run[] {
  const runs: Run[] = [];
  const push = (text: string, look: Look, rest: Partial<Run> = {}) => {
    if (text !== '') runs.push({ text, look, node, ...rest });
  };
  for (const one of inline) {
    if (one.kind === 'link') {
      const look = { ...base, colour: kit.linkColour };
      const link = kit.structure.add(node, 'Link');
      push(cleaned(one.text), look, { node: link, to: one.anchor });
      if (one.page && (one.near === undefined || kit.away(one.near, one.anchor))) {
        const [before = '', after = ''] = one.bare ? [] : kit.words.pageRef.split('{n}');
        // A short name and its page stay on one line.
        if (one.text !== '') push(one.text.length < 12 ? '\u00a0' : ' ', look, { node: link, to: one.anchor });
        push(before, look, { node: link, to: one.anchor });
        runs.push({ text: pageMark, look, node: link, to: one.anchor, page: one.anchor });
        push(after, look, { node: link, to: one.anchor });
        const { through } = one;
        if (through !== undefined && (kit.pageBefore(through) === undefined || kit.pageBefore(through) !== kit.pageBefore(one.anchor))) {
          push('\u2013', look, { node: link, to: one.anchor });
          runs.push({ text: pageMark, look, node: link, to: one.anchor, page: through });
        }
      }
    } else if (one.kind === 'chip') {
      runs.push({ text: cleaned(one.text), look: { ...base, face: 'bold', size: Math.round(base.size * 0.84) }, node, chip: true });
    } else {
      const face = one.kind === 'strong' ? 'bold' : one.kind === 'em' ? 'italic' : one.kind === 'code' ? 'mono' : base.face;
      const size = one.kind === 'code' ? Math.round(base.size * 0.88) : base.size;
      push(cleaned(one.text), { ...base, face, size });
    }
  }
  return runs;
}

type Item = BreakItem & { readonly parts: readonly Part[]; readonly word?: WordPiece };

/** A divided word's piece: joined again to the whole word when the line does not end at its hyphen. */
interface WordPiece {
  readonly run: Run;
  readonly text: string;
}

const hyphenCost = 280;
const slashCost = 160;

function textParts(text: string, run: Run, kit: TextKit): Part[] {
  return kit.shaper.shape(run.look.face, text).map((shaped) => ({
    kind: 'text',
    shaped,
    look: run.look,
    width: widthOf(shaped, run.look.size),
    node: run.node,
    ...(run.to === undefined ? {} : { to: run.to }),
  }));
}

const sumWidth = (parts: readonly Part[]): Mp => parts.reduce((sum, part) => sum + part.width, 0);

function hyphenPart(piece: string, run: Run, kit: TextKit): readonly Part[] {
  // Prints a hyphen, reads as a soft hyphen: a search for the whole word finds it.
  return textParts(`${piece}-`, run, kit).map((part, index, all) =>
    part.kind === 'text' && index === all.length - 1
      ? {
          ...part,
          shaped: kit.shaper.softHyphen(part.shaped),
        }
      : part,
  );
}

/** Words of one paragraph as items; `divide` says whether words may be hyphenated. */
function itemsOf(runs: readonly Run[], kit: TextKit, limit: Mp, divide: boolean): Item[] {
  const joined = runs.map((run) => (run.chip ? chipMark : run.text)).join('');
  const starts: number[] = [];
  let at = 0;
  for (const run of runs) {
    starts.push(at);
    at += run.chip ? 1 : run.text.length;
  }
  const items: Item[] = [];
  let runIndex = 0;
  const pieceParts = (from: number, to: number): { parts: Part[]; single?: WordPiece } => {
    const parts: Part[] = [];
    let single: WordPiece | undefined;
    let stretches = 0;
    while (runIndex > 0 && (starts[runIndex] as number) > from) runIndex -= 1;
    while (runIndex + 1 < runs.length && (starts[runIndex + 1] as number) <= from) runIndex += 1;
    for (let k = runIndex, position = from; position < to && k < runs.length; k += 1) {
      const run = runs[k] as Run;
      const begin = starts[k] as number;
      const end = begin + (run.chip ? 1 : run.text.length);
      if (end <= position) continue;
      if (run.chip) {
        const shaped = kit.shaper.shape(run.look.face, run.text);
        const width = widthOfAll(shaped, run.look.size) + 2 * chipPad;
        if (width <= limit) parts.push({ kind: 'chip', shaped, look: run.look, width, node: run.node });
        else parts.push(...textParts(run.text, run, kit));
        stretches += 2;
      } else if (run.page !== undefined) {
        const width = kit.reserve(run.page, run.look);
        parts.push({ kind: 'page', anchor: run.page, look: run.look, width, node: run.node, to: run.page });
        stretches += 2;
      } else {
        const text = run.text.slice(position - begin, Math.min(to, end) - begin).replace(silent, '');
        if (text !== '') {
          parts.push(...textParts(text, run, kit));
          stretches += 1;
          single = { run, text };
        }
      }
      position = Math.min(to, end);
    }
    return stretches === 1 && single !== undefined ? { parts, single } : { parts };
  };

  const pushWord = (from: number, to: number): void => {
    const { parts, single } = pieceParts(from, to);
    const width = sumWidth(parts);
    if (width > limit) {
      pushChunks(parts, kit.shaper, limit, items);
      return;
    }
    if (divide && single !== undefined) {
      const match = /^(\P{L}*)(\p{L}+)(\P{L}*)$/u.exec(single.text);
      const pieces = match === null ? [single.text] : hyphenate(match[2] as string, kit.language);
      if (match !== null && pieces.length > 1) {
        const texts = [...pieces];
        texts[0] = (match[1] as string) + texts[0];
        texts[texts.length - 1] += match[3] as string;
        let done = '';
        let reached = 0;
        texts.forEach((text, index) => {
          done += text;
          const prefix = textParts(done, single.run, kit);
          const next = sumWidth(prefix);
          items.push({ kind: 'box', width: next - reached, parts: textParts(text, single.run, kit), word: { run: single.run, text } });
          reached = next;
          if (index < texts.length - 1) {
            const hyphen = hyphenPart(text, single.run, kit);
            const extra = Math.max(0, sumWidth(hyphen) - sumWidth(textParts(text, single.run, kit)));
            items.push({ kind: 'penalty', width: extra, cost: hyphenCost, hyphen: true, parts: hyphen });
          }
        });
        return;
      }
    }
    items.push({ kind: 'box', width, parts });
  };

  let wordStart = 0;
  const spaces = /[ \u1680\u2000-\u2006\u2008-\u200a\u205f\u3000]+$/;
  const breaker = new LineBreaker(joined);
  for (let next = breaker.nextBreak(); next !== null; next = breaker.nextBreak()) {
    const segment = joined.slice(wordStart, next.position);
    const gap = spaces.exec(segment)?.[0].length ?? 0;
    const word = segment.slice(0, segment.length - gap);
    const following = /^[^\s]*/.exec(joined.slice(next.position))?.[0] ?? '';
    const end = wordStart + word.length;
    if (gap > 0) {
      const spaceRun = pieceParts(end, end + 1).parts;
      const width = sumWidth(spaceRun);
      // The word before the space may have begun earlier (after a tie or a slash); judge by its last stretch.
      const left = lastSpaced(joined, end);
      if (
        next.position < joined.length &&
        tied(left, following) &&
        sumWidth(pieceParts(wordStart, next.position + following.length).parts) <= limit
      ) {
        continue;
      }
      if (word !== '') pushWord(wordStart, end);
      if (next.position < joined.length) items.push({ kind: 'glue', width, parts: spaceRun });
    } else {
      const afterHyphen = /[-\u2010\u2013]$/.test(word);
      const afterSlash = word.endsWith('/');
      // A slash or hyphen between short or numeric pieces belongs to a unit, a fraction or a code.
      if ((afterSlash || afterHyphen) && next.position < joined.length && (following.length < 4 || word.length < 4 || /\d/.test(word)))
        continue;
      if (word !== '') pushWord(wordStart, end);
      if (next.position < joined.length) {
        items.push({ kind: 'penalty', width: 0, cost: afterSlash || afterHyphen ? slashCost : 60, hyphen: afterHyphen, parts: [] });
      }
    }
    wordStart = next.position;
  }
  return items;
}

const lastSpaced = (text: string, end: number): string => {
  let start = end;
  while (start > 0 && text[start - 1] !== ' ') start -= 1;
  return text.slice(start, end);
};

/** Lines of at most `width`. Hyphens are tried only when the lines come out too uneven without. */
export function linesOf(inline: readonly Inline[], look: Look, node: NodeId, width: Mp, kit: TextKit): Line[] {
  // Service text says the same again and again (lock out, tighten, refit): plain words are broken once for each width.
  const only = inline[0];
  if (inline.length !== 1 || only?.kind !== 'text') return brokenLines(inline, look, node, width, kit);
  const key = `${look.face} ${look.size} ${look.even} ${width} ${kit.language} ${only.text}`;
  let memory = broken.get(kit.shaper);
  if (memory === undefined) {
    memory = new Map();
    broken.set(kit.shaper, memory);
  }
  const found = memory.get(key);
  if (found === undefined) {
    const lines = brokenLines(inline, look, node, width, kit);
    // A long day of edits must not fill the memory.
    if (memory.size >= mostRemembered) memory.clear();
    memory.set(key, lines);
    return lines;
  }
  return found.map((line) => ({ ...line, parts: line.parts.map((part) => ({ ...part, look, node })) }));
}

const mostRemembered = 50_000;

/** Pure memory, by the fonts it holds for. */
const broken = new WeakMap<Shaper, Map<string, readonly Line[]>>();

function brokenLines(inline: readonly Inline[], look: Look, node: NodeId, width: Mp, kit: TextKit): Line[] {
  const runs = runsOf(inline, look, node, kit);
  const stretch = look.size * 3;
  const stub = look.size * 2;
  let items = itemsOf(runs, kit, width, false);
  if (items.length === 0) return [];
  let breaks = breakLines(items, width, stretch, stub);
  if (look.even) breaks = evened(items, breaks, width, stretch, stub);
  else if (breaks.worst > 250) {
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

/** Width of the longest word and of the whole on one line: what a table needs to share out its columns. */
export function extentOf(
  inline: readonly Inline[],
  look: Look,
  kit: Omit<TextKit, 'structure'>,
  structure: StructureBuilder,
): { least: Mp; most: Mp } {
  const items = itemsOf(runsOf(inline, look, 0, { ...kit, structure }), { ...kit, structure }, Number.MAX_SAFE_INTEGER, false);
  let least = 0;
  let most = 0;
  for (const item of items) {
    if (item.kind === 'penalty') continue;
    most += item.width;
    if (item.kind === 'box') least = Math.max(least, item.width);
  }
  return { least, most };
}

function composeLine(items: readonly Item[], start: number, end: number, kit: TextKit): Line {
  const parts: Part[] = [];
  let i = start;
  while (i < end) {
    const item = items[i] as Item;
    if (item.kind === 'box' && item.word !== undefined) {
      // Join the pieces of a divided word that stay on this line, with the hyphen if it ends here.
      const run = item.word.run;
      let text = item.word.text;
      let j = i;
      while (j + 2 <= end && items[j + 1]?.kind === 'penalty' && (items[j + 1] as Item & { hyphen: boolean }).hyphen && j + 2 < end) {
        const next = items[j + 2] as Item;
        if (next.word === undefined || next.word.run !== run) break;
        text += next.word.text;
        j += 2;
      }
      const ender = items[end];
      const hyphenated = j + 1 === end && ender?.kind === 'penalty' && ender.hyphen && ender.parts.length > 0;
      parts.push(...(hyphenated ? hyphenPart(text, run, kit) : textParts(text, run, kit)));
      i = j + 1;
      continue;
    }
    if (item.kind !== 'penalty') parts.push(...item.parts);
    i += 1;
  }
  return { parts, width: sumWidth(parts) };
}
