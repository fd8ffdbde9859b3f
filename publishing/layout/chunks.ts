/** A word wider than the line, cut between characters: ugly, but nothing leaves the type area. Words that fit are left to items.ts. */
import type { Part } from './parts.ts';
import { type Shaper, widthOf } from './shaped.ts';
import type { Mp } from './units.ts';

export function pushChunks(parts: readonly Part[], shaper: Shaper, limit: Mp, push: (width: Mp, chunk: readonly Part[]) => void): void {
  let chunk: Part[] = [];
  let width = 0;
  const flush = () => {
    if (chunk.length === 0) return;
    push(width, chunk);
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
    for (const whole of part.shaped) {
      let text = '';
      let textWidth = 0;
      const take = () => {
        for (const shaped of text === '' ? [] : shaper.shape(whole.face, text)) {
          const w = widthOf(shaped, part.look.size);
          chunk.push({ ...part, shaped: [shaped], width: w });
          width += w;
        }
        text = '';
        textWidth = 0;
      };
      // By characters with the marks set on them, in the order they are read; kerning inside a chunk is not counted on.
      for (const [character] of whole.text.matchAll(/.\p{M}*/gsu)) {
        const advance = shaper
          .shape(whole.face, character)
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
  }
  flush();
}
