/** What of the margin the caret stands at: which findings, names and steps, and which finding comes next. Only looks; what is done with it is done elsewhere. */
import type { Margin, MarginLine, NameToSettle, SentenceReading } from '../../procedures-schema/assist/index.ts';
import type { Finding } from '../../procedures-schema/index.ts';

/** Findings that begin at one place: the caret comes to all of them at once. */
export interface Stop {
  readonly at: number;
  readonly findings: readonly Finding[];
}

/** In order of the text. */
export function stopsOf(findings: readonly Finding[]): readonly Stop[] {
  const starts = [...new Set(findings.map(({ span }) => span.start))].sort((a, b) => a - b);
  return starts.map((at) => ({ at, findings: findings.filter(({ span }) => span.start === at) }));
}

/** From the caret on, around the ends of the text. */
export function nextStop(stops: readonly Stop[], caret: number, which: 'next' | 'previous'): Stop | undefined {
  return which === 'next' ? (stops.find(({ at }) => at > caret) ?? stops[0]) : (stops.findLast(({ at }) => at < caret) ?? stops.at(-1));
}

const length = ({ span }: Finding): number => span.end - span.start;

/** Whether the margin shows it whole: the caret stands in it or right after it, where the line that was just ended leaves it. */
export const standsAt = ({ span }: Finding, caret: number): boolean => span.start <= caret && caret <= span.end + 1;

/** The closest first: those that the caret stands in, shorter before longer; else those in its line; else those of the line that was just ended. */
export function findingsAt(findings: readonly Finding[], caret: number, text: string): readonly Finding[] {
  const start = text.lastIndexOf('\n', caret - 1) + 1;
  const found = text.indexOf('\n', caret);
  const end = found < 0 ? text.length : found;
  const ways = [
    findings.filter(({ span }) => span.start <= caret && caret <= span.end).sort((a, b) => length(a) - length(b)),
    findings.filter(({ span }) => start <= span.start && span.start <= end),
    findings.filter((one) => standsAt(one, caret)),
  ];
  return ways.find((own) => own.length > 0) ?? [];
}

/** The innermost first. */
export function stepsAt(margin: Margin, caret: number): readonly MarginLine[] {
  return margin.lines
    .filter(({ span }) => span.start <= caret && caret <= span.end)
    .sort((a, b) => a.span.end - a.span.start - (b.span.end - b.span.start));
}

/** The name that the caret stands in; in none, those of its step. */
export function namesAt(margin: Margin, caret: number): readonly NameToSettle[] {
  const own = margin.settle.filter(({ span }) => span.start <= caret && caret <= span.end);
  return own.length > 0 ? own : (stepsAt(margin, caret).find(({ settle }) => settle.length > 0)?.settle ?? []);
}

/** Readings that the proof rests on and nobody accepted, of the innermost step that has some. */
export function toAcceptAt(
  margin: Margin,
  caret: number,
): { readonly step: MarginLine; readonly readings: readonly SentenceReading[] } | undefined {
  for (const step of stepsAt(margin, caret)) {
    const readings = step.readings.filter(({ earns, accepted }) => earns && !accepted);
    if (readings.length > 0) return { step, readings };
  }
  return undefined;
}
