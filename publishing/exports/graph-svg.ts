/**
 * The graph of a procedure as an SVG drawing: its steps in order, where each may lead, and the required state of each as a hatched stripe, with a key of the
 * stripe and the cautions of a guide at the foot. A drawing goes from hand to hand without its text, so what may not be printed is marked as a draft here too.
 */
import type { ProcedureFacts, Program } from '../../procedures-schema/index.ts';
import { layWays, shortened, stepGraph, TIP, waysPath } from '../../procedures-schema/review/index.ts';
import { printedWords } from '../printed-words/index.ts';

const HEAD = 34;
const LEFT = 200;
/** Labels stand in a column of their own. */
const LABEL = 40;
const WIDTH = 480;
/** No letter is measured here: the room is taken for a broad one, in parts of the size of the type. */
const BROAD = 0.62;
const NOTE = 10;
/** Of the foot: its key, and the cautions under it. */
const FOOT = 16;

/** `draft`: an error stands in the way of print. */
export function graphSvg(facts: ProcedureFacts, program: Program, draft: boolean): string {
  const { steps, edges } = stepGraph(facts, program);
  const laid = layWays(steps.length, edges, { line: 15, pad: 11, lane: 11, answer: 300, broad: ({ length }) => length * NOTE * BROAD });
  const { layout: words, book } = printedWords('en');
  const states = (['live', 'cut', 'open', 'safe', 'unknown'] as const).filter((state) => steps.some((step) => step.state === state));
  const foot = HEAD + laid.height + 12;
  const width = LEFT + WIDTH + Math.ceil(laid.width);
  const cautions = book.cautions.flatMap((caution) => folded(caution, Math.floor((width - LEFT) / (NOTE * BROAD))));
  const height = foot + (states.length + cautions.length + 1) * FOOT;
  const middle = (row: number): number => HEAD + (laid.rows[row]?.middle ?? 0);
  const out: string[] = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" font-family="sans-serif" font-size="12">`,
    `<title>${escaped(`${facts.head.id} ${facts.head.title}`)}</title>`,
    '<defs><pattern id="live" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="6" height="6" fill="#fae2de"/><rect width="3" height="6" fill="#b22222"/></pattern>',
    '<pattern id="cut" width="8" height="8" patternUnits="userSpaceOnUse"><rect width="8" height="8" fill="#ffde8c"/><rect width="4" height="4" fill="#784800"/><rect x="4" y="4" width="4" height="4" fill="#784800"/></pattern>',
    '<pattern id="open" width="8" height="6" patternUnits="userSpaceOnUse"><rect width="8" height="6" fill="#e1ecf4"/><rect width="8" height="2.4" fill="#005387"/></pattern>',
    '<pattern id="unknown" width="6" height="8" patternUnits="userSpaceOnUse"><circle cx="3" cy="4" r="1" fill="#6e7276"/></pattern></defs>',
    `<rect width="100%" height="100%" fill="#fff"/><text x="${LEFT}" y="22" font-weight="bold">${escaped(`${facts.head.id}  ${facts.head.title}`)}</text>`,
    ...(draft ? [`<text x="8" y="22" font-weight="bold" fill="#b22222">${escaped(words.draft)}</text>`] : []),
  ];
  const fill = { live: 'url(#live)', cut: 'url(#cut)', safe: '#237a52', open: 'url(#open)', unknown: 'url(#unknown)' } as const;
  steps.forEach((step, row) => {
    const { state } = step;
    const first = steps[row - 1]?.section !== step.section;
    if (first) out.push(`<text x="8" y="${middle(row) + 4}" fill="#54585c">${escaped(step.section.slice(0, 26))}</text>`);
    const words = shortened(step.text, WIDTH - LABEL, ({ length }) => length * 12 * BROAD);
    const { top, height: high } = laid.rows[row] ?? { top: 0, height: 0 };
    out.push(
      `<rect x="${LEFT - 16}" y="${HEAD + top}" width="8" height="${high}" fill="${fill[state]}"><title>${state}</title></rect>`,
      `<text x="${LEFT}" y="${middle(row) + 4}" font-weight="bold">${escaped(step.label)}</text>`,
      `<text x="${LEFT + LABEL}" y="${middle(row) + 4}">${escaped(words)}</text>`,
    );
  });
  out.push(`<text x="${LEFT}" y="${middle(steps.length) + 4}" font-weight="bold">End</text>`);
  out.push(`<g transform="translate(${LEFT + WIDTH} ${HEAD})">`);
  for (const { back, points, answer } of laid.edges) {
    const colour = back ? '#8a4b00' : '#14405f';
    const [, y] = points.at(-1) ?? [0, 0];
    out.push(
      `<path d="${waysPath(points, 4)}" fill="none" stroke="${colour}" stroke-width="1.2"${back ? ' stroke-dasharray="4 3"' : ''}/>`,
      `<path d="M${TIP} ${y} l7 -3.5 v7 z" fill="${colour}"/>`,
    );
    if (answer === undefined) continue;
    const whole = answer.text === answer.whole ? '' : `<title>${escaped(answer.whole)}</title>`;
    out.push(`<text x="${answer.x}" y="${answer.y + 3.5}" font-size="${NOTE}" fill="${colour}">${escaped(answer.text)}${whole}</text>`);
  }
  out.push('</g>');
  states.forEach((state, at) => {
    const y = foot + at * FOOT;
    out.push(
      `<rect x="${LEFT - 16}" y="${y}" width="8" height="12" fill="${fill[state]}"/>`,
      `<text x="${LEFT}" y="${y + 10}" font-size="${NOTE}">${escaped(words.band[state])}</text>`,
    );
  });
  cautions.forEach((line, at) => {
    out.push(`<text x="${LEFT}" y="${foot + (states.length + at) * FOOT + 16}" font-size="${NOTE}">${escaped(line)}</text>`);
  });
  return `${out.join('\n')}\n</svg>\n`;
}

const escaped = (text: string): string => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');

/** Lines of so many letters at most. */
const folded = (text: string, most: number): readonly string[] =>
  text.match(new RegExp(`.{1,${most}}(?=\\s|$)`, 'g'))?.map((line) => line.trim()) ?? [];
