/** A word wider than the line, cut between characters: ugly, but nothing leaves the type area. Words that fit are left to paragraph.ts. */
import type { BreakItem } from './lines.ts';
import type { Part } from './paragraph.ts';
import { type Shaper, widthOf } from './shaped.ts';
import type { Mp } from './units.ts';

export function pushChunks(
  parts: readonly Part[],
  shaper: Shaper,
  limit: Mp,
  items: (BreakItem & { readonly parts: readonly Part[] })[],
): void {
  let chunk: Part[] = [];
  let width = 0;
  const flush = () => {
    if (chunk.length === 0) return;
    if (items.length > 0 && items[items.length - 1]?.kind === 'box') {
      items.push({ kind: 'penalty', width: 0, cost: 0, hyphen: false, parts: [] });
    }
    items.push({ kind: 'box', width, parts: chunk });
    chunk = [];
    width = 0;
  };
  for (const part of parts) {
    if (part.kind !== 'text') {
      if (width + part.width > limit) flush();
      chunk.push(part);
      width += part.width;
      continue;
    }
    let text = '';
    let textWidth = 0;
    const take = () => {
      for (const shaped of text === '' ? [] : shaper.shape(part.shaped.face, text)) {
        const w = widthOf(shaped, part.look.size);
        chunk.push({ ...part, shaped, width: w });
        width += w;
      }
      text = '';
      textWidth = 0;
    };
    // By characters with the marks set on them, in the order they are read; kerning inside a chunk is not counted on.
    for (const [character] of part.shaped.text.matchAll(/.\p{M}*/gsu)) {
      const advance = shaper
        .shape(part.shaped.face, character)
        .reduce((sum, one) => sum + Math.ceil((Math.max(one.units, ...one.widths) * part.look.size) / 1000), 0);
      if (width + textWidth + advance > limit && (text !== '' || chunk.length > 0)) {
        take();
        flush();
      }
      text += character;
      textWidth += advance;
    }
    take();
  }
  flush();
}
