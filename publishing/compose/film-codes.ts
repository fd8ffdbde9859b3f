/** Codes that open the film of a section where a step is shown: the section's start, and steps that measure, warn or show a figure. A drawing; it reads no film. */

import type { LabelledStep, Measurement, Section, Step } from '../../procedures-schema/index.ts';
import type { FilmLink } from '../../procedures-schema/narration/index.ts';
import { shortTime } from '../../procedures-schema/narration/index.ts';
import type { BookBlock } from '../book.ts';
import { codeSquares } from '../film-code.ts';
import type { Scope } from './scope.ts';

/** Millimetres. A code of 20 mm has modules of about half a millimetre, which a telephone reads at arm's length (common practice, no source). */
const CODE = 20;
const CELL = { width: 28, height: 29 } as const;
const COLUMNS = 6;
/** Codes in one strip: two rows, low enough to stand under a heading; a longer section has several strips, which pages may part. */
const STRIP = 2 * COLUMNS;
const PX_PER_MM = 96 / 25.4;

/** No block where the library has no film of it, or the film says something else by now. */
export function filmCodes(section: Section, scope: Scope, measured: ReadonlyMap<Step, readonly Measurement[]>): BookBlock[] {
  const links = (scope.input.films?.get(scope.facts.head.id) ?? []).filter((link) => link.section === section.id);
  if (links.length === 0 || section.prose) return [];
  const { labels } = scope.facts.read;
  const chosen = links.filter(({ label }, index) => {
    const at = labels.steps.find((step) => step.section === section && step.label === label);
    return index === 0 || at === undefined || tellsMore(at, measured);
  });
  const { words } = scope;
  const name = ({ label }: FilmLink): string => (label === undefined ? words.filmStart : `${words.step} ${label}`);
  const strips = Array.from({ length: Math.ceil(chosen.length / STRIP) }, (_, index) => chosen.slice(index * STRIP, (index + 1) * STRIP));
  return strips.map((shown, index): BookBlock => {
    const caption = words.filmCodes(index + 1, strips.length);
    return {
      kind: 'figure',
      alt: `${caption} ${shown.map((link) => `${name(link)}, ${shortTime(link.start)}: ${link.address}`).join('; ')}`,
      caption,
      image: { kind: 'svg', source: drawing(shown, name) },
    };
  });
}

const tellsMore = ({ step }: LabelledStep, measured: ReadonlyMap<Step, readonly Measurement[]>): boolean =>
  measured.has(step) || step.children.some(({ kind }) => kind === 'notice' || kind === 'figure');

function drawing(links: readonly FilmLink[], name: (link: FilmLink) => string): string {
  const rows = Math.ceil(links.length / COLUMNS);
  const [width, height] = [COLUMNS * CELL.width, rows * CELL.height];
  const cells = links.map((link, index) => {
    const [x, y] = [(index % COLUMNS) * CELL.width, Math.floor(index / COLUMNS) * CELL.height];
    const { side, path } = codeSquares(link.address);
    const grow = (CODE / side).toFixed(5);
    const middle = x + CODE / 2;
    return [
      `<path transform="translate(${x} ${y}) scale(${grow})" d="${path}" fill="#000000"/>`,
      `<text x="${middle}" y="${y + CODE + 3}" font-size="3.2" text-anchor="middle">${escaped(name(link))}</text>`,
      `<text x="${middle}" y="${y + CODE + 6.6}" font-size="3.2" text-anchor="middle">${shortTime(link.start)}</text>`,
    ].join('');
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${Math.round(width * PX_PER_MM)}" viewBox="0 0 ${width} ${height}">${cells.join('')}</svg>`;
}

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
