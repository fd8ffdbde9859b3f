/** A try-out or a proof says what must be seen: L15. */
import type { ProcedureCheck } from './check.ts';
import { eachAction } from './visit.ts';

export const tryHasResult: ProcedureCheck = {
  id: 'try-has-result',
  scope: 'procedure',
  severity: 'warning',
  question: 'Does every try-out or reading that proves isolation say what must be seen?',
  why: '"Try the button" without what must not move is done by pressing and looking away.',
  source: '29 CFR 1910.147(c)(4)(ii)(D), specific requirements for testing; rule L15',
  cases: [
    { name: 'pressed and nothing said', finds: 1, change: [['Press the [start button]', '#. Try the [start button].']] },
    { name: 'what must not move', finds: 0 },
  ],
  *run({ file, read }) {
    for (const { action, step, span, sentence } of eachAction(read)) {
      if (action.kind !== 'try-out' && action.kind !== 'prove') continue;
      if (action.result !== undefined || action.until !== undefined || action.amounts.length > 0) continue;
      // The next sentence of the same step may say it: "Try the button. The drum must not turn."
      const after = read.labels.byStep.get(step.step) ? nextWords(step.step.lead.text, sentence.end) : '';
      if (/\b(?:must|should|does|do|will|may|shall|stays?|shows?|reads?|no|not|nothing)\b/i.test(after)) continue;
      yield {
        file,
        span,
        message: `Step ${step.fullLabel} does not say what must be seen.`,
        actual: 'no result named',
        expected: 'what must not move, or what the gauge or meter must show',
        steps: [step.fullLabel],
      };
    }
  },
};

function nextWords(text: string, from: number): string {
  return (
    (text.slice(from).split(/(?<=[.!?])\s/)[0] ?? '').trim() ||
    (text
      .slice(from)
      .trim()
      .split(/(?<=[.!?])\s/)[0] ??
      '')
  );
}
