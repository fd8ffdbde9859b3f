/** Turns a check's case into a small library and the place where its finding must stand. */
import type { CheckCase } from '../../procedures-schema/checks/index.ts';
import { type FigureFacts, figureFacts, kindOfFigure } from '../../procedures-schema/figures/index.ts';
import { bytesOf } from './figures.ts';
import { FIXTURE_CLOSE, FIXTURE_FRONT, FIXTURE_REGISTERS, FIXTURE_SAFE } from './fixture.ts';

const EQUIPMENT = 'registers/equipment.yaml';

export interface ExpandedCase {
  readonly files: readonly { readonly path: string; readonly text: string }[];
  /** Line and column (from 1) of the first caret of each caret line. */
  readonly figures: ReadonlyMap<string, FigureFacts>;
  readonly carets: readonly { readonly file: string; readonly line: number; readonly column: number }[];
}

export function expandCase(example: CheckCase): ExpandedCase {
  const texts: Record<string, string> = { ...FIXTURE_REGISTERS };
  for (const [from, to] of example.equipment ?? []) texts[EQUIPMENT] = changed(texts[EQUIPMENT] as string, from, to);
  texts['procedures/FX-100.md'] = procedureText(example);
  for (const [path, text] of Object.entries(example.files ?? {})) texts[path] = path.endsWith('.md') ? numbered(text) : text;
  const carets: ExpandedCase['carets'][number][] = [];
  const files = Object.entries(texts).map(([path, text]) => ({ path, text: takeCarets(path, text, carets) }));
  return { files, carets, figures: new Map(files.flatMap(({ path, text }) => factsOf(path, text))) };
}

/** Of a picture each letter of the text is a byte. */
function factsOf(path: string, text: string): (readonly [string, FigureFacts])[] {
  const kind = kindOfFigure(path);
  if (kind === undefined) return [];
  return [[path, figureFacts(kind === 'svg' ? { kind, source: text } : { kind, bytes: bytesOf(text) })]];
}

function procedureText(example: CheckCase): string {
  const front = new Map(FIXTURE_FRONT);
  for (const block of frontBlocks(example.front ?? '')) {
    if (block.startsWith('-')) front.delete(block.slice(1).trim());
    else front.set((block.split(':')[0] ?? '').trim(), block);
  }
  const work = example.work === undefined ? '' : `## Work\n\n${example.work.trimEnd()}\n\n`;
  const given = example.body?.replace('@SAFE\n', `${FIXTURE_SAFE}\n`).replace('@WORK\n', work).replace('@CLOSE\n', FIXTURE_CLOSE);
  let body = given ?? `${FIXTURE_SAFE}\n${work}${FIXTURE_CLOSE}`;
  for (const [from, to] of example.change ?? []) body = changed(body, from, to);
  return numbered(`---\n${[...front.values()].join('\n')}\n---\n\n${body.trimEnd()}\n`);
}

function changed(body: string, from: string, to: string): string {
  if (!body.includes(from)) throw new Error(`the fixture has no line with "${from}"`);
  return body
    .split('\n')
    .flatMap((line) => (line.includes(from) ? (to === '' ? [] : [to]) : [line]))
    .join('\n');
}

/** A top-level key with the indented (and caret) lines under it. */
function frontBlocks(text: string): string[] {
  const blocks: string[] = [];
  for (const line of text.split('\n')) {
    if (line.trim() === '') continue;
    if (/^[\s^]/.test(line) && blocks.length > 0) blocks[blocks.length - 1] += `\n${line}`;
    else blocks.push(line);
  }
  return blocks;
}

/** `#.` becomes the number of its place at its indent; a heading restarts the count. */
export function numbered(text: string): string {
  const counts = new Map<number, number>();
  return text
    .split('\n')
    .map((line) => {
      if (/^#{1,6} /.test(line)) counts.clear();
      const item = /^( *)#\. /.exec(line);
      if (!item) return line;
      const indent = (item[1] ?? '').length;
      for (const deeper of [...counts.keys()]) if (deeper > indent) counts.delete(deeper);
      const count = (counts.get(indent) ?? 0) + 1;
      counts.set(indent, count);
      const label = indent > 0 ? String.fromCharCode(96 + count) : String(count);
      return `${item[1]}${label}. ${line.slice(indent + 3)}`;
    })
    .join('\n');
}

function takeCarets(path: string, text: string, carets: { file: string; line: number; column: number }[]): string {
  const kept: string[] = [];
  for (const line of text.split('\n')) {
    const caret = /^[ ]*(\^+)[ ]*$/.exec(line);
    if (caret && kept.length > 0) carets.push({ file: path, line: kept.length, column: line.indexOf('^') + 1 });
    else kept.push(line);
  }
  return kept.join('\n');
}
