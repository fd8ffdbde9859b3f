/**
 * The one door to the yaml package: text to nodes with every scalar as the text that was typed (F11). Never throws; what is
 * wrong comes back as problems with places. What a field means is for registers/.
 */
import { Composer, type Document, isAlias, isMap, isPair, isScalar, isSeq, LineCounter, type Node, type Pair, Parser } from 'yaml';
import type { Span } from '../finding.ts';
import { foldText } from './fold.ts';
import type { FormatProblem, YamlMap, YamlNode, YamlScalar } from './tree.ts';
import { faultsOf, type YamlError } from './yaml-faults.ts';
import { yamlMessage } from './yaml-messages.ts';

export interface ReadYamlText {
  readonly root: YamlNode | undefined;
  readonly problems: readonly FormatProblem[];
}

/** Nobody nests a register deeper; the package's recursion would run out of stack far beyond it. */
const DEEPEST = 60;
const MOST_ALIASES = 100;

/** `text` is `source.slice(base)` or a part of it; offsets come out as of the source. */
export function readYamlText(text: string, base: number): ReadYamlText {
  const reader = new Reader(text, base);
  return reader.read();
}

/** The first document of a text, and where a second one begins. */
function parsed(text: string): { readonly first: Document.Parsed | undefined; readonly second: number | undefined } {
  const lines = new LineCounter();
  const composer = new Composer({
    schema: 'failsafe',
    version: '1.2',
    merge: false,
    uniqueKeys: false,
    strict: false,
    prettyErrors: false,
    stringKeys: false,
  });
  let first: Document.Parsed | undefined;
  for (const document of composer.compose(new Parser(lines.addNewLine).parse(text), true, text.length)) {
    if (first) return { first, second: document.range[0] };
    first = document;
  }
  return { first, second: undefined };
}

const errorsOf = (document: Document.Parsed | undefined): readonly YamlError[] =>
  document === undefined
    ? []
    : [...document.errors, ...document.warnings].map(({ pos: [start, end], code, message }) => ({ start, end, code, original: message }));

class Reader {
  readonly #text: string;
  readonly #base: number;
  readonly #problems: FormatProblem[] = [];
  readonly #anchors = new Map<string, YamlNode | undefined>();
  #aliases = 0;

  constructor(text: string, base: number) {
    this.#text = text;
    this.#base = base;
  }

  read(): ReadYamlText {
    const deep = tooDeep(this.#text);
    if (deep !== undefined) {
      this.#problem(deep, deep + 1, `Brackets or indents are nested more than ${DEEPEST} deep here. The file is not read.`);
      return { root: undefined, problems: this.#problems };
    }
    let document: Document.Parsed | undefined;
    try {
      document = this.#parse();
    } catch {
      this.#problem(0, 0, 'This cannot be read as YAML at all. Undo the last change here, or write the file anew.');
      return { root: undefined, problems: this.#problems };
    }
    if (!document) return { root: undefined, problems: this.#problems };
    for (const { start, end, code, original } of faultsOf(this.#text, errorsOf(document), (text) => errorsOf(parsed(text).first)))
      this.#problem(start, Math.max(start + 1, end), yamlMessage(code, original), { broken: true });
    const root = document.contents ? this.#node(document.contents as Node) : undefined;
    return { root, problems: this.#problems };
  }

  #parse(): Document.Parsed | undefined {
    const { first, second } = parsed(this.#text);
    if (second !== undefined)
      this.#problem(second, second + 1, 'A line of three hyphens starts a second document. One file holds one; what follows is not read.');
    return first;
  }

  #span(start: number, end: number): Span {
    const clip = (at: number): number => this.#base + Math.max(0, Math.min(at, this.#text.length));
    return { start: clip(start), end: clip(Math.max(start, end)) };
  }

  #problem(start: number, end: number, message: string, more: Partial<FormatProblem> = {}): void {
    this.#problems.push({ rule: 'front-matter', span: this.#span(start, end), message, ...more });
  }

  #node(node: Node | null | undefined): YamlNode | undefined {
    if (!node) return undefined;
    if (isAlias(node)) return this.#alias(node.source, node.range?.[0] ?? 0, node.range?.[1] ?? 0);
    const anchor = isScalar(node) || isMap(node) || isSeq(node) ? node.anchor : undefined;
    const read = this.#plain(node);
    if (anchor) this.#anchors.set(anchor, read);
    return read;
  }

  #plain(node: Node): YamlNode | undefined {
    const [start, end] = [node.range?.[0] ?? 0, node.range?.[1] ?? 0];
    if (isScalar(node)) return this.#scalar(node, start, end);
    if (isSeq(node)) {
      const items: YamlNode[] = [];
      node.items.forEach((item) => {
        const read = isPair(item) ? this.#pairs([item], start, end) : this.#node(item as Node);
        if (read) items.push(read);
        this.#comment(item as Node);
      });
      if (node.flow) this.#cutNumber(node.items as Node[]);
      return { kind: 'seq', span: this.#span(start, end), items };
    }
    if (isMap(node)) return this.#pairs(node.items as Pair[], start, end, node.flow === true);
    return undefined;
  }

  #scalar(node: { readonly value?: unknown; readonly type?: string; readonly source?: string }, start: number, end: number): YamlScalar {
    const quoted = node.type !== 'PLAIN';
    const value = typeof node.value === 'string' ? node.value : (node.source ?? '');
    const text = !quoted && /^(?:null|Null|NULL|~)$/.test(value) ? '' : value;
    return { kind: 'scalar', span: this.#span(start, end), text: quoted ? text : text.trim(), quoted };
  }

  #alias(name: string, start: number, end: number): YamlNode | undefined {
    this.#aliases++;
    const known = this.#anchors.get(name);
    if (!known || this.#aliases > MOST_ALIASES || holdsAlias(known)) {
      if (!this.#problems.some(({ span }) => span.start === this.#base + start))
        this.#problem(start, end, `"*${name}" leads nowhere that can be read here. Write the value out.`);
      return undefined;
    }
    ALIASED.add(known);
    return known;
  }

  #pairs(pairs: readonly Pair[], start: number, end: number, flow = false): YamlMap {
    const entries: { key: YamlScalar; value: YamlNode | undefined; span: Span }[] = [];
    const seen = new Map<string, string>();
    let before: { readonly node: Node | null | undefined; readonly text: string } | undefined;
    for (const pair of pairs) {
      const keyNode = pair.key as Node | null;
      const read = keyNode ? this.#node(keyNode) : undefined;
      const at = keyNode?.range?.[0] ?? start;
      const stop = keyNode?.range?.[1] ?? at;
      const key: YamlScalar = read?.kind === 'scalar' ? read : { kind: 'scalar', span: this.#span(at, stop), text: '', quoted: false };
      if (read && read.kind !== 'scalar') this.#problem(at, stop, 'A list or map stands where a name is expected. Put the name in quotes.');
      if (key.text === '<<') this.#problem(at, stop, 'Merge keys (<<) are not read. Write the values out.');
      const value = pair.value ? this.#node(pair.value as Node) : undefined;
      if (flow && !pair.value && before) this.#valueless(before, keyNode, key);
      const valueEnd = (pair.value as Node | null)?.range?.[1] ?? stop;
      const folded = foldText(key.text);
      if (folded !== '' && seen.has(folded)) {
        this.#problem(at, stop, `"${key.text}" stands here twice. Only one of them can hold.`, { actual: key.text });
      }
      seen.set(folded, key.text);
      this.#hash(pair.value as Node | null);
      entries.push({ key, value, span: this.#span(at, valueEnd) });
      before = { node: pair.value as Node | null, text: value?.kind === 'scalar' ? value.text : '' };
    }
    return { kind: 'map', span: this.#span(start, end), entries };
  }

  /** `{gap: 0,35 mm}`: the comma ended the value. */
  #valueless(before: { readonly node: Node | null | undefined; readonly text: string }, keyNode: Node | null, key: YamlScalar): void {
    const from = before.node?.range?.[0];
    const to = keyNode?.range?.[1];
    if (from === undefined || to === undefined) return;
    const whole = this.#text.slice(from, to);
    const decimal = /\d$/.test(before.text) && /^\d/.test(key.text);
    this.#problem(
      from,
      to,
      `Inside braces a comma ends the value, so "${key.text}" became a name of its own.`,
      decimal
        ? {
            actual: whole,
            expected: `"${whole}" in quotes`,
            replacement: { span: this.#span(from, to), text: `"${whole.replace(/"/g, '\\"')}"`, title: 'Put the value in quotes' },
          }
        : { actual: whole, expected: 'a colon and a value after it, or quotes around the whole value' },
    );
  }

  /** `[0,35 mm]`: the same in a list. */
  #cutNumber(items: readonly Node[]): void {
    items.forEach((item, n) => {
      const next = items[n + 1];
      if (!next || !isScalar(item) || !isScalar(next) || item.type !== 'PLAIN' || next.type !== 'PLAIN') return;
      const [from, to] = [item.range?.[0] ?? 0, next.range?.[1] ?? 0];
      const whole = this.#text.slice(from, to);
      if (!/^[-+]?\d+,\d+\s+[^\s\d]/.test(whole)) return;
      this.#problem(from, to, 'Inside brackets a comma ends the item, so this value became two.', {
        actual: whole,
        expected: `"${whole}" in quotes`,
        replacement: { span: this.#span(from, to), text: `"${whole}"`, title: 'Put the value in quotes' },
      });
    });
  }

  /** `- screwdriver #2` lost its "#2". */
  #comment(item: Node): void {
    if (!isScalar(item) || item.type !== 'PLAIN' || !item.range) return;
    const lineEnd = this.#lineEnd(item.range[1]);
    const after = /^([ \t]+)(#.*)$/.exec(this.#text.slice(item.range[1], lineEnd));
    if (!after) return;
    this.#lost(item.range[0], item.range[1], lineEnd, after[2] ?? '');
  }

  /** In a map only what no one writes as a comment: "#2" without a space. */
  #hash(value: Node | null): void {
    if (!value || !isScalar(value) || value.type !== 'PLAIN' || !value.range) return;
    const lineEnd = this.#lineEnd(value.range[1]);
    const after = /^[ \t]+(#\S.*)$/.exec(this.#text.slice(value.range[1], lineEnd));
    if (after && /^#[^\s#]/.test(after[1] ?? '')) this.#lost(value.range[0], value.range[1], lineEnd, after[1] ?? '');
  }

  #lineEnd(from: number): number {
    let at = from;
    while (at < this.#text.length && this.#text[at] !== '\n' && this.#text[at] !== '\r') at++;
    return at;
  }

  #lost(start: number, end: number, lineEnd: number, comment: string): void {
    if (start === end) return;
    const whole = this.#text.slice(start, lineEnd).trimEnd();
    this.#problems.push({
      rule: 'yaml-comment',
      span: this.#span(start, lineEnd),
      message: `"${comment.trimEnd()}" after the name is read as a comment and is lost.`,
      actual: this.#text.slice(start, end),
      expected: `"${whole}" in quotes, or the comment on a line of its own`,
      replacement: {
        span: this.#span(start, start + whole.length),
        text: `"${whole.replace(/[\\"]/g, '\\$&')}"`,
        title: 'Put the whole name in quotes',
      },
    });
  }
}

/** Nodes that an alias already stands for: an alias to something that holds one could multiply without end. */
const ALIASED = new WeakSet<YamlNode>();

function holdsAlias(node: YamlNode): boolean {
  if (node.kind === 'scalar') return false;
  const inner = node.kind === 'seq' ? node.items : node.entries.flatMap((entry) => (entry.value ? [entry.value] : []));
  return inner.some((child) => ALIASED.has(child) || holdsAlias(child));
}

/** Offset of the first character nested too deep, by brackets on any line or by indents of block lists on one line. */
function tooDeep(text: string): number | undefined {
  let depth = 0;
  for (let at = 0; at < text.length; at++) {
    const c = text.charCodeAt(at);
    if (c === 91 || c === 123) {
      if (++depth > DEEPEST) return at;
    } else if (c === 93 || c === 125) depth = Math.max(0, depth - 1);
    else if (c === 10 && depth > 0 && /^[A-Za-z-]/.test(text[at + 1] ?? '')) depth = 0;
  }
  const dashes = new RegExp(`(?:[-?:][ \\t]+){${DEEPEST},}`).exec(text);
  if (dashes) return dashes.index;
  const indent = new RegExp(`^[ ]{${DEEPEST * 8},}\\S`, 'm').exec(text);
  return indent ? indent.index + indent[0].length - 1 : undefined;
}
