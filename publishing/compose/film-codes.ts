/** Codes that open the film of a section where a step is shown: the section's start, and steps that measure, warn or show a figure. A drawing; it reads no film. */

import { type LabelledStep, type Measurement, type Section, type Step, sizeOfPaper } from '../../procedures-schema/index.ts';
import type { FilmLink } from '../../procedures-schema/narration/index.ts';
import { shortTime } from '../../procedures-schema/narration/index.ts';
import type { Book, BookBlock } from '../book.ts';
import { codeSquares } from '../film-code.ts';
import type { Scope } from './scope.ts';

/** Millimetres a module. A telephone reads a third of one at arm's length (common practice, no source); printers and dust take their share. */
const MODULE = 0.4;
/** Beside a code, for the name of its step and the time in the film. */
const WORDS = 15;
/** What the text column of a page holds in whole millimetres, so that codes come out in their own size: margins and labels take 48 on A5, 59 on A4. */
function roomOn(paper: Book['paper']): number {
  const wide = Math.floor(sizeOfPaper(paper).width / 10_000);
  const past = Math.max(0, Math.min(62, wide - 148));
  return wide - 48 - Math.ceil((past * 11) / 62);
}
/** Rows of codes in one strip, low enough to stand under a heading; a longer section has several strips, which pages may part. */
const ROWS = 2;
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
  const room = roomOn(scope.input.paper ?? scope.input.library.registers.house.paper);
  // All as wide as the widest, so that they stand in columns.
  const cell = Math.max(...chosen.map(({ address }) => codeSquares(address).side)) * MODULE + WORDS;
  const columns = Math.max(1, Math.floor(room / cell));
  const most = ROWS * columns;
  const strips = Array.from({ length: Math.ceil(chosen.length / most) }, (_, index) => chosen.slice(index * most, (index + 1) * most));
  const [only, another] = chosen;
  if (only !== undefined && another === undefined) {
    const source = drawing(
      [only],
      () => words.filmOne,
      (link) => `${name(link)}, ${shortTime(link.start)}`,
      { room, cell, columns },
    );
    const alt = `${words.filmOne}: ${name(only)}, ${shortTime(only.start)}: ${only.address}`;
    return [{ kind: 'figure', alt, image: { kind: 'svg', source }, leads: true }];
  }
  return strips.map((shown, index): BookBlock => {
    const caption = words.filmCodes(index + 1, strips.length);
    return {
      kind: 'figure',
      leads: true,
      alt: `${caption} ${shown.map((link) => `${name(link)}, ${shortTime(link.start)}: ${link.address}`).join('; ')}`,
      caption,
      unmarked: true,
      image: { kind: 'svg', source: drawing(shown, name, ({ start }) => shortTime(start), { room, cell, columns }) },
    };
  });
}

const tellsMore = ({ step }: LabelledStep, measured: ReadonlyMap<Step, readonly Measurement[]>): boolean =>
  measured.has(step) || step.children.some(({ kind }) => kind === 'notice' || kind === 'figure');

interface Grid {
  readonly room: number;
  readonly cell: number;
  readonly columns: number;
}

type Says = (link: FilmLink) => string;

/** Two lines beside each code. */
function drawing(links: readonly FilmLink[], upper: Says, lower: Says, { room, cell, columns }: Grid): string {
  const high = cell - WORDS;
  const height = Math.ceil(links.length / columns) * high;
  const cells = links.map((link, index) => {
    const [x, y] = [(index % columns) * cell, Math.floor(index / columns) * high];
    const { side, path } = codeSquares(link.address);
    const [beside, middle] = [x + side * MODULE, y + (side * MODULE) / 2];
    // The blank margin of a code is part of it: words begin where it ends.
    return [
      `<path transform="translate(${shown(x)} ${shown(y)}) scale(${MODULE})" d="${path}" fill="#000000"/>`,
      `<text x="${shown(beside)}" y="${shown(middle - 0.6)}" font-size="3.2">${escaped(upper(link))}</text>`,
      `<text x="${shown(beside)}" y="${shown(middle + 3.2)}" font-size="3.2">${escaped(lower(link))}</text>`,
    ].join('');
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${Math.round(room * PX_PER_MM)}" viewBox="0 0 ${room} ${shown(height)}">${cells.join('')}</svg>`;
}

const shown = (millimetres: number): string => String(Math.round(millimetres * 1000) / 1000);
const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
