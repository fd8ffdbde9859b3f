/** What the proof says of a procedure, for `walk --all`: verdicts, how much was looked at, steps nobody reaches, what is broken. */
import { checkWording, type ProcedureFacts } from '../../procedures-schema/index.ts';
import { answersText } from '../report/answers.ts';

export function summaryOf({ head, read, flow, machines }: ProcedureFacts): string {
  const lines = [`${head.id} ${head.title}`, ''];
  const wide = Math.max(8, ...flow.verdicts.map(({ variant }) => variant.length));
  for (const { variant, verdict, because } of flow.verdicts)
    lines.push(`  ${variant.padEnd(wide)}  ${verdict}${because ? `: ${because}` : ''}`);
  const reached =
    flow.unreached.length === 0
      ? 'every step is reached on some variant'
      : `not reached: ${flow.unreached.map((step) => step.fullLabel).join(', ')}`;
  lines.push(
    '',
    `  ${read.labels.steps.length} steps on ${machines.length} variants; ${flow.explored.states} states, ${flow.explored.transitions} transitions; ${reached}`,
  );
  for (const { rule, thing, at, variants, walk } of flow.violations) {
    const where = at.step ? ` at step ${at.step.fullLabel}` : '';
    lines.push('', `  ${checkWording(rule)}: ${thing}${where}${variants.length > 0 ? ` on ${variants.join(', ')}` : ''}`);
    if (walk.length > 0)
      lines.push(`    walk: ${walk.map(({ place, answers }) => `${place.step?.fullLabel ?? ''}${answersText(answers)}`).join(', ')}`);
  }
  lines.push('', '  Proved means: no walk of this text breaks a rule on the machine as registered. It does not make the machine safe.');
  return `${lines.join('\n')}\n`;
}
