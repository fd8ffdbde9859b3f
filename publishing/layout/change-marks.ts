/** Marks in the margin against an earlier revision: a bar beside what is new, a stroke where something is gone. Draws nothing: draw.ts. */
import type { ChangeMarks } from '../book.ts';
import type { Line } from './paragraph.ts';
import type { Decor, Room, Slab } from './slab.ts';

/** A bar along everything measured in this room. */
export const barred = (room: Room): Room => ({ ...room, decor: [...room.decor, { kind: 'change' }] });

/** Holds a word that is not so in the earlier revision. */
export const isBarred = (line: Line): boolean => line.parts.some(({ look }) => look.barred === true);

export const captionDecor = ({ captionChanged }: { readonly captionChanged?: true }, room: Room): readonly Decor[] =>
  captionChanged ? barred(room).decor : room.decor;

export function withGone(slabs: readonly Slab[], where: NonNullable<ChangeMarks['gone']>): Slab[] {
  const stroke = (slab: Slab, at: 'head' | 'foot'): Slab => ({ ...slab, decor: [...slab.decor, { kind: 'gone', at } satisfies Decor] });
  return slabs.map((slab, index) => {
    const head = index === 0 && where !== 'after' ? stroke(slab, 'head') : slab;
    return index === slabs.length - 1 && where !== 'before' ? stroke(head, 'foot') : head;
  });
}
