/** Procedures whose steps are for one model each: "Open the valve." becomes "For the DL-25, open the valve." Texts in, texts out, for trials of what a film leaves unsaid. */
import type { randomFrom } from './random.ts';

type Random = ReturnType<typeof randomFrom>;

/** A step of the outermost list that begins with an order. */
const STEP = /^((?:\d+|#)\. )(?!If |For |On |When |Unless |Otherwise|Step )([A-Z])(?=[a-z]+ )/;

/** `each`: about how many steps of a procedure are given a model. A text without models stays as it is. */
export function conditioned(text: string, each: number, random: Random): string {
  const models = modelsOf(text);
  if (models.length === 0) return text;
  const lines = text.split('\n');
  const steps = lines.flatMap((line, index) => (STEP.test(line) ? [index] : []));
  const chosen = new Set(steps.filter(() => random(steps.length) < each));
  return lines
    .map((line, index) =>
      chosen.has(index)
        ? line.replace(
            STEP,
            (_, number: string, letter: string) => `${number}For the ${models[random(models.length)]}, ${letter.toLowerCase()}`,
          )
        : line,
    )
    .join('\n');
}

/** Of the front matter, as a list in brackets or one a line. */
function modelsOf(text: string): readonly string[] {
  const own = /^models:(?: \[(.*)\]|((?:\n {2}- .*)+))$/m.exec(text);
  return (own?.[1]?.split(',') ?? own?.[2]?.split('\n  - ').slice(1) ?? []).map((name) => name.trim());
}
