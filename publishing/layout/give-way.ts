/**
 * The spaces of a page give way by a little where a line or two more on it save turning a leaf inside a proof, a step alone overleaf or a page that is half
 * empty. Which pages gain by it is weighed in break.ts; here is how much, and what is left of each space. Knows heights only.
 */
import { mayGive, resumedHeight } from './break.ts';
import type { Slab } from './slab.ts';
import type { Mp } from './units.ts';

/** Thousandths of each space. An eighth is a point between two steps: nobody sees it without a ruler. Common practice, no source. */
export const mostGiven = 125;

/** What is left of the space above each slab of a page; the first has none. Where the page is not too full, all of it. */
export function spacesOf(slabs: readonly Slab[], start: number, end: number, height: Mp): readonly Mp[] {
  const page = slabs.slice(start, end);
  const own = page.map(({ gap }, index) => (index === 0 ? 0 : gap));
  const gaps = own.reduce((sum, gap) => sum + gap, 0);
  const again = start > 0 ? resumedHeight(slabs[start] as Slab, height) : 0;
  const over = page.reduce((sum, slab) => sum + slab.height, again + gaps) - height;
  // What is too tall for any page stands out of it as it is.
  if (over <= 0 || over > mayGive(gaps, mostGiven)) return own;
  let above = 0;
  let given = 0;
  return own.map((gap) => {
    above += gap;
    const due = Math.floor((over * above) / gaps) - given;
    given += due;
    return gap - due;
  });
}
