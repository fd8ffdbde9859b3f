/** How large the print of a drawing can come out on paper, and what is too small to be read. Sets no page; publishing does. */

/** Smaller print in a figure is told: x-heights below this are lost on a copy and in bad light. Common practice, no source. Thousandths of a point. */
export const LEAST_PRINT = 7000;

/** What margins take of the width of a page at the least, in thousandths of a point: 30 mm. A test holds every paper against it. */
const MARGINS = 85_039;
/** No figure takes more than this share of the page's height, nor is one enlarged beyond this. */
const TALLEST = 0.6;
export const MOST_ENLARGED = 1.5;

/** The most that a drawing of this size is scaled by on a page of that size, all in thousandths of a point. Where it stands in a step it may be less. */
export function mostScale(
  drawing: { readonly width: number; readonly height: number },
  page: { readonly width: number; readonly height: number },
): number {
  return Math.min((page.width - MARGINS) / drawing.width, (page.height * TALLEST) / drawing.height, MOST_ENLARGED);
}
