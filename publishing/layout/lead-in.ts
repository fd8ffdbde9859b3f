/** Chapters that only open the next one, put at the head of its first page: a title and three lines take no leaf of their own. */
import { heightOf } from './break.ts';
import type { Kit } from './kit.ts';
import { measureRule } from './measure-text.ts';
import type { MeasuredChapter } from './place.ts';
import type { Slab } from './slab.ts';
import { costs } from './style.ts';
import { pt } from './units.ts';

/** A taller one stands alone. */
const mostOfPage = 1 / 3;

export function ledIn(chapters: readonly MeasuredChapter[], kit: Kit): MeasuredChapter[] {
  const out: MeasuredChapter[] = [];
  chapters.forEach((one, index) => {
    const next = chapters[index + 1];
    const before = chapters[index - 1];
    if (next !== undefined && leads(one, next, kit)) return;
    if (before === undefined || !leads(before, one, kit)) out.push(one);
    else {
      const [first, ...rest] = one.stretches as readonly [Stretch, ...Stretch[]];
      out.push({ ...one, stretches: [{ ...first, slabs: joined(before.stretches[0]?.slabs ?? [], first.slabs, kit) }, ...rest] });
    }
  });
  return out;
}

type Stretch = MeasuredChapter['stretches'][number];

function leads({ chapter, stretches }: MeasuredChapter, next: MeasuredChapter, kit: Kit): boolean {
  const [own, opened] = [stretches[0], next.stretches[0]];
  return (
    chapter?.leadsIn === true &&
    next.chapter !== undefined &&
    !next.chapter.leadsIn &&
    stretches.length === 1 &&
    own !== undefined &&
    !own.turned &&
    opened !== undefined &&
    !opened.turned &&
    heightOf(own.slabs) <= kit.pageHeight * mostOfPage
  );
}

/** Pure memory: the same two are the same page in the next pass. */
const known = new WeakMap<readonly Slab[], { readonly after: readonly Slab[]; readonly slabs: readonly Slab[] }>();

function joined(before: readonly Slab[], after: readonly Slab[], kit: Kit): readonly Slab[] {
  const found = known.get(before);
  if (found?.after === after) return found.slabs;
  const room = { left: 0, x: 0, width: kit.pageWidth, node: 0, cost: costs.heading, decor: [] };
  const [rule] = measureRule(room, kit).slabs;
  const [head, ...rest] = after as readonly [Slab, ...Slab[]];
  const slabs = [
    ...before,
    ...(rule === undefined ? [] : [{ ...rule, gap: pt(20), cost: costs.heading }]),
    { ...head, gap: pt(20), cost: costs.heading },
    ...rest,
  ];
  known.set(before, { after, slabs });
  return slabs;
}
