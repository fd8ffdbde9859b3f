/**
 * Words outside the flow, set before anything is drawn: on one line where they fit, then on as many as there is room for, then in smaller type. What
 * fits in no way is cut between words, and that is told.
 */
import { type Kit, linesIn } from './kit.ts';
import { type Shaped, widthOfAll } from './shaped.ts';
import { StructureBuilder } from './structure.ts';
import type { TextLook } from './style.ts';
import { type Mp, pt } from './units.ts';

export interface MarginLine {
  readonly run: readonly Shaped[];
  readonly width: Mp;
  readonly look: TextLook;
}

/** Smaller is not read at arm's length. */
const least = pt(7);
const smaller = pt(0.5);

export function marginLines(text: string, look: TextLook, width: Mp, most: number, kit: Kit): readonly MarginLine[] {
  if (text === '') return [];
  for (let size = look.size; ; size -= smaller) {
    const own: TextLook = { ...look, size: Math.max(size, Math.min(least, look.size)) };
    const lines = linesOf(text, own, width, kit);
    if (lines.length <= most) return lines;
    if (own.size > size) return cut(text, own, width, most, kit);
  }
}

function linesOf(text: string, look: TextLook, width: Mp, kit: Kit): readonly MarginLine[] {
  const run = kit.shaper.shape(look.face, text);
  const whole = widthOfAll(run, look.size);
  if (whole <= width) return [{ run, width: whole, look }];
  const broken = linesIn([{ kind: 'text', text }], { ...look, even: true }, 0, width, { ...kit, structure: new StructureBuilder() });
  return broken.map((line) => ({
    run: line.parts.flatMap((part) => (part.kind === 'text' ? part.shaped : [])),
    width: line.width,
    look,
  }));
}

function cut(text: string, look: TextLook, width: Mp, most: number, kit: Kit): readonly MarginLine[] {
  const message = `"${text}" is too long for the margin of a page and is cut there. Make it shorter.`;
  if (!kit.notes.some((note) => note.message === message)) kit.notes.push({ kind: 'long-words', message });
  const words = text.split(' ');
  while (words.length > 1) {
    words.pop();
    const lines = linesOf(`${words.join(' ')} \u2026`, look, width, kit);
    if (lines.length <= most) return lines;
  }
  return linesOf(text, look, width, kit).slice(0, most);
}
