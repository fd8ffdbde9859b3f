/** The contents: one line an entry, dotted leader, document numbers, titles and page numbers each in a column. Which entries: normalise.ts. */
import { baselineIn, type Kit, linesIn, textWidth } from './kit.ts';
import { segment } from './ops.ts';
import type { Line, Part } from './paragraph.ts';
import type { Measured, Room, Slab, SlabItem } from './slab.ts';
import { colours, costs, type TextLook } from './style.ts';
import { type Mp, pt } from './units.ts';

export function measureContents(depth: number, room: Room, kit: Kit): Measured {
  const { sheet } = kit;
  const toc = kit.structure.add(room.node, 'TOC');
  const slabs: Slab[] = [];
  const right = room.x + room.width;
  const numberColumn = pt(30);
  const bold: TextLook = { ...sheet.body, face: 'bold' };
  const numberOf = (number: string): string => `${number}\u2003`;
  const widest = Math.max(0, ...kit.contents.map(({ number }) => (number === undefined ? 0 : textWidth(numberOf(number), bold, kit))));
  // Titles under each other, those of the sections below them too.
  const titles = Math.max(room.x, room.left + Math.min(widest, Math.round(room.width / 3)));
  let numbered = false;
  kit.contents
    .filter((entry) => entry.level <= depth)
    .forEach((entry, index) => {
      const top = entry.level === 1;
      // What comes after the last procedure is no part of it.
      const backMatter = top && entry.number === undefined && numbered;
      if (top) numbered = entry.number !== undefined;
      // No hyphens, and no word alone on a second line.
      const look: TextLook = { ...(top ? (entry.part ? sheet.headings[2] : bold) : sheet.body), even: true };
      const link = kit.structure.add(kit.structure.add(toc, 'TOCI'), 'Link');
      const x = top ? (entry.number === undefined ? room.left : titles) : titles + (entry.level === 3 ? pt(14) : 0);
      const width = right - numberColumn - x;
      const linked = (text: string, room: Mp): readonly Line[] =>
        linesIn([{ kind: 'text', text }], look, link, room, kit).map((line) => ({
          ...line,
          parts: line.parts.map((part): Part => (part.kind === 'text' ? { ...part, to: entry.anchor } : part)),
        }));
      const lines = linked(entry.text, width);
      const number = entry.number === undefined ? undefined : linked(numberOf(entry.number), titles - room.left + pt(1))[0];
      const base = baselineIn(look, kit);
      lines.forEach((line, at) => {
        const items: SlabItem[] = [{ kind: 'line', x, width, baseline: base, line, align: 'left' }];
        if (at === 0 && number !== undefined)
          items.unshift({ kind: 'line', x: room.left, width: number.width, baseline: base, line: number, align: 'left' });
        if (at === lines.length - 1) {
          const from = x + line.width + pt(6);
          const to = right - numberColumn;
          if (to > from) {
            const path = segment(0, 0, to - from, 0);
            const stroke = { colour: colours.faint, width: pt(1), dash: [0, pt(4)], cap: 'round' as const };
            items.push({ kind: 'art', x: from, y: base - pt(1.5), ops: [{ op: 'path', path, stroke }] });
          }
          const page: Part = { kind: 'page', anchor: entry.anchor, look, width: numberColumn, node: link, to: entry.anchor };
          items.push({
            kind: 'line',
            x: right - numberColumn,
            width: numberColumn,
            baseline: base,
            line: { parts: [page], width: numberColumn },
            align: 'right',
          });
        }
        const opens = at === 0 && index > 0;
        const gap = opens ? (entry.part || backMatter ? pt(18) : top ? pt(9) : pt(2)) : 0;
        const cost = at > 0 ? costs.hard : index === 0 ? 0 : top ? 0 : costs.insideEntry;
        slabs.push({
          height: look.lead,
          items,
          gap,
          cost: Math.max(cost, index === 0 && at === 0 ? 0 : room.cost),
          decor: room.decor,
          of: 'other',
        });
      });
      // The first line under the name of a chapter or of a part stays with it.
      const before = kit.contents[kit.contents.indexOf(entry) - 1];
      if (before?.part || (!top && before?.level === 1)) (slabs[slabs.length - lines.length] as Slab).cost = costs.orphan;
    });
  return { slabs, before: sheet.around, after: sheet.around };
}
