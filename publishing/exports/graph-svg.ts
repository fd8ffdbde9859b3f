/** The graph of a procedure as an SVG drawing: its steps in order, where each may lead, and the required state of each as a hatched stripe. */
import type { ProcedureFacts, Program } from '../../procedures-schema/index.ts';
import { stepGraph } from '../../procedures-schema/review/index.ts';

const ROW = 26;
const LEFT = 200;
/** Labels stand in a column of their own. */
const LABEL = 40;
const WIDTH = 480;

export function graphSvg(facts: ProcedureFacts, program: Program): string {
  const { steps, edges } = stepGraph(facts, program);
  const height = ROW * (steps.length + 2) + 40;
  const y = (row: number): number => 40 + row * ROW;
  const out: string[] = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${LEFT + WIDTH + 260} ${height}" font-family="sans-serif" font-size="12">`,
    `<title>${escaped(`${facts.head.id} ${facts.head.title}`)}</title>`,
    '<defs><pattern id="live" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="6" height="6" fill="#fae2de"/><rect width="3" height="6" fill="#b22222"/></pattern>',
    '<pattern id="cut" width="8" height="8" patternUnits="userSpaceOnUse"><rect width="8" height="8" fill="#ffde8c"/><rect width="4" height="4" fill="#784800"/><rect x="4" y="4" width="4" height="4" fill="#784800"/></pattern>',
    '<pattern id="open" width="8" height="6" patternUnits="userSpaceOnUse"><rect width="8" height="6" fill="#e1ecf4"/><rect width="8" height="2.4" fill="#005387"/></pattern>',
    '<pattern id="unknown" width="6" height="8" patternUnits="userSpaceOnUse"><circle cx="3" cy="4" r="1" fill="#6e7276"/></pattern></defs>',
    `<rect width="100%" height="100%" fill="#fff"/><text x="${LEFT}" y="22" font-weight="bold">${escaped(`${facts.head.id}  ${facts.head.title}`)}</text>`,
  ];
  const fill = { live: 'url(#live)', cut: 'url(#cut)', safe: '#237a52', open: 'url(#open)', unknown: 'url(#unknown)' } as const;
  steps.forEach((step, row) => {
    const { state } = step;
    const first = steps[row - 1]?.section !== step.section;
    if (first) out.push(`<text x="8" y="${y(row) + 4}" fill="#54585c">${escaped(step.section.slice(0, 26))}</text>`);
    const words = step.text.length > 62 ? `${step.text.slice(0, 60)}\u2026` : step.text;
    out.push(
      `<rect x="${LEFT - 16}" y="${y(row) - ROW / 2}" width="8" height="${ROW}" fill="${fill[state]}"><title>${state}</title></rect>`,
      `<text x="${LEFT}" y="${y(row) + 4}" font-weight="bold">${escaped(step.label)}</text>`,
      `<text x="${LEFT + LABEL}" y="${y(row) + 4}">${escaped(words)}</text>`,
    );
  });
  out.push(`<text x="${LEFT}" y="${y(steps.length) + 4}" font-weight="bold">End</text>`);
  const x = LEFT + WIDTH;
  const notes = new Map<number, number>();
  for (const { from, to, note } of edges) {
    const target = to ?? steps.length;
    if (target === from + 1 && note === '') continue;
    const bend = Math.min(220, 24 + Math.abs(target - from) * 7);
    const [a, b] = [y(from), y(target)];
    const colour = target <= from ? '#8a4b00' : '#14405f';
    out.push(
      `<path d="M${x} ${a} C${x + bend} ${a} ${x + bend} ${b} ${x + 6} ${b}" fill="none" stroke="${colour}" stroke-width="1.2"${target <= from ? ' stroke-dasharray="4 3"' : ''}/>`,
      `<path d="M${x} ${b} l7 -3.5 v7 z" fill="${colour}"/>`,
    );
    // Answers that leave one step stand under each other.
    const told = notes.get(from) ?? 0;
    if (note !== '') {
      notes.set(from, told + 1);
      out.push(`<text x="${x + 8}" y="${a - 3 + told * 10}" font-size="9" fill="${colour}">${escaped(note.slice(0, 40))}</text>`);
    }
  }
  return `${out.join('\n')}\n</svg>\n`;
}

const escaped = (text: string): string => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
