/** The figures of a procedure, and the numbers that one shows and that its words name: what callouts can point at. Judges nothing. */
import type { FigureFacts } from '../figures/index.ts';
import type { Figure, Procedure, Prose } from '../format/index.ts';
import { proseSpan } from '../format/index.ts';
import type { ProcedureFacts } from './check.ts';
import { eachBlock, eachProse } from './visit.ts';

export const eachFigure = (tree: Procedure): readonly Figure[] => [
  ...eachBlock([...tree.preface, ...tree.sections.flatMap(({ blocks }) => blocks)], 'figure'),
];

/** One number in brackets, where it stands, and the figures that it may be of: as printed, and those that the same words name. */
export interface Callout {
  readonly number: string;
  readonly prose: Prose;
  readonly at: number;
  readonly to: number;
  readonly figures: readonly Figure[];
}

export function* eachCallout(facts: ProcedureFacts, figures: readonly Figure[]): Iterable<Callout> {
  for (const { prose, end } of stepsOf(facts)) {
    // As printed: the last figure that was shown before the step ends, else the first.
    const printed = figures.findLast(({ span }) => span.start < end) ?? figures[0];
    const named = prose.marks.flatMap((mark) => (mark.kind === 'reference' && mark.form.kind === 'figure' ? [mark.form.id] : []));
    const own = figures.filter((figure) => figure === printed || (figure.id !== undefined && named.includes(figure.id)));
    for (const mark of prose.marks)
      if (mark.kind === 'reference' && mark.form.kind === 'callout')
        yield { number: mark.form.number, prose, at: mark.at, to: mark.end, figures: own };
    for (const { index, 0: all, 1: number = '' } of prose.text.matchAll(/\((\d{1,2})\)/g))
      yield { number, prose, at: index, to: index + all.length, figures: own };
  }
}

/** Words of all steps, each with the end of the step they belong to. */
function* stepsOf({ read, tree }: ProcedureFacts): Iterable<{ readonly prose: Prose; readonly end: number }> {
  const ends = read.labels.steps.map(({ step }) => step.span);
  for (const prose of eachProse(tree.sections.flatMap(({ blocks }) => blocks))) {
    const { start } = proseSpan(prose, 0, prose.text.length);
    // The innermost step comes last.
    const own = ends.findLast((span) => span.start <= start && start < span.end);
    if (own) yield { prose, end: own.end };
  }
}

/** Numbers that words name, "1 to 4" and "1-4" with what lies between. One with a unit or a decimal is a size. */
export function numbersIn(words: string): ReadonlySet<string> {
  const out = new Set<string>();
  const plain = words.replace(
    /(?<![\d.,/])(\d{1,2})\s*(?:-|–|\bto\b|\bbis\b)\s*(\d{1,2})(?![\d/]|[.,]\d)/g,
    (whole, from: string, to: string) => {
      if (Number(from) >= Number(to)) return whole;
      for (let number = Number(from); number <= Number(to); number += 1) out.add(String(number));
      return `${to} `;
    },
  );
  const found = plain.matchAll(/(?<![\d.,/-])(\d{1,2})(?![\d/-]|[.,]\d|\s*(?:[°%]|(?:mm|cm|m|in(?!\s+[a-z])|kg|N|V|A|bar|psi)\b))/g);
  for (const [, number = ''] of found) out.add(number);
  return out;
}

export interface DrawnNumbers {
  /** Every number that stands somewhere in the drawing's words. */
  readonly all: ReadonlySet<string>;
  /** Those that stand alone, as callouts do. */
  readonly alone: ReadonlySet<string>;
}

/** Undefined: nobody can say. A bitmap's are dots of colour, and a drawing without numbers that stand alone may have them as outlines. */
export function drawnNumbers(facts: FigureFacts | undefined): DrawnNumbers | undefined {
  if (facts?.kind !== 'svg' || facts.fault) return undefined;
  // Numbers in circles are letters of their own.
  const plain = facts.labels.map((label) => label.replace(/[\u2460-\u2473]/g, (circled) => String(circled.charCodeAt(0) - 0x245f)));
  const alone = new Set(plain.flatMap((label) => /^\(?(\d{1,3})\)?$/.exec(label)?.slice(1) ?? []));
  return alone.size === 0 ? undefined : { all: new Set([...alone, ...plain.flatMap((label) => [...numbersIn(label)])]), alone };
}

/** 1, 2, 3 and so on without a gap: then they are callouts, and not a scale or a size. */
export const isCounted = (numbers: ReadonlySet<string>): boolean =>
  Array.from({ length: numbers.size }, (_, index) => String(index + 1)).every((number) => numbers.has(number));

/** For people: "1 to 5", or each. */
export function listed(numbers: ReadonlySet<string>): string {
  const sorted = [...numbers].sort((a, b) => Number(a) - Number(b));
  return isCounted(numbers) && sorted.length > 2 ? `1 to ${sorted.length}` : sorted.join(', ');
}
