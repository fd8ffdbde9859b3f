/** A fastener with a torque is tightened to that torque, said in the step. */
import { proseSpan } from '../format/index.ts';
import { absolute, compare, convert, findQuantities, multiply, parseQuantity, rational, sameKind, subtract } from '../quantities/index.ts';
import type { Fastener } from '../registers/index.ts';
import type { ProcedureCheck } from './check.ts';
import { markOf } from './measured.ts';
import { eachAction } from './visit.ts';

/** The state of the threads, where it stands alone: ", dry,", "with dry threads". */
const STATE = /(?:[,;(]\s*|\bwith\s+(?:the\s+)?threads?\s+)(dry|lubricated|oiled|greased)(?=\s*(?:[,.;)]|$))/i;

export const torqueAsRegistered: ProcedureCheck = {
  id: 'torque-as-registered',
  scope: 'procedure',
  severity: 'error',
  question: 'Is every fastener that has a torque tightened to it, does the step say the value, and no other state of the threads?',
  why: 'Too little and it works loose; too much and it breaks at the next service. The value belongs where the wrench is.',
  source: 'reference "mechanical" 3; common practice: the torque stands in the step',
  cases: [
    {
      name: 'no torque said',
      finds: 1,
      front: 'tools: [13 mm wrench]',
      work: '#. Loosen the [scraper bolts] with the 13 mm wrench.\n#. Tighten the [scraper bolts].',
    },
    {
      name: 'another torque',
      finds: 1,
      front: 'tools: [torque wrench]',
      work: '#. Loosen the [scraper bolts].\n#. Tighten the [scraper bolts] to 35 N·m with the torque wrench.',
    },
    {
      name: 'another state of the threads',
      finds: 1,
      front: 'tools: [torque wrench]',
      work: '#. Loosen the [scraper bolts].\n#. Tighten the [scraper bolts] to 25 N·m, lubricated, with the torque wrench.',
    },
    {
      name: 'the registered torque and state',
      finds: 0,
      front: 'tools: [torque wrench]',
      work: '#. Loosen the [scraper bolts].\n#. Tighten the [scraper bolts] in two stages to 25 N·m, dry, with the [torque wrench].',
    },
    {
      name: 'the registered torque',
      finds: 0,
      front: 'tools: [torque wrench]',
      work: '#. Loosen the [scraper bolts].\n#. Tighten the [scraper bolts] to 25 N·m with the torque wrench.',
    },
  ],
  *run({ file, read, machines }, { registers }) {
    const mark = markOf(registers);
    const fasteners = new Map<string, Fastener>();
    for (const machine of machines)
      for (const fastener of machine.fasteners) if (fastener.torque !== undefined) fasteners.set(fastener.name, fastener);
    for (const { action, sentence, prose, step, span } of eachAction(read)) {
      if (action.kind !== 'tighten' || action.stage === 'hand') continue;
      // "In three stages" and the stages below: the last of them is the one that counts.
      if (/\bstages?\b/i.test(sentence.text) && step.step.children.some((child) => child.kind === 'substeps')) continue;
      const siblings = step.parent?.step.children.flatMap((child) => (child.kind === 'substeps' ? [...child.steps] : [])) ?? [];
      const staged = step.parent !== undefined && /\bstages?\b/i.test(step.parent.step.lead.text);
      // An earlier stage has a value of its own; only the last one is the register's.
      const early = action.stage === 'first' || (staged && siblings.indexOf(step.step) < siblings.length - 1);
      if (early && action.stage === 'first' && action.with.length === 0) continue;
      for (const { thing } of action.things) {
        const fastener = fasteners.get(thing.name);
        const right = fastener?.torque === undefined ? undefined : parseQuantity(fastener.torque, mark);
        const value = right?.nominal;
        if (!fastener || !right || !value) continue;
        const said = findQuantities(prose.text, mark).filter(
          ({ at, quantity }) => at >= sentence.at && at < sentence.end && quantity.unit.kind === 'torque',
        );
        if (said.length === 0) {
          yield {
            file,
            span,
            message: `Step ${step.fullLabel} tightens the ${thing.name} and does not say the torque.`,
            actual: 'no torque',
            expected: fastener.torque as string,
            steps: [step.fullLabel],
          };
          continue;
        }
        if (early) continue;
        const state = STATE.exec(sentence.text)?.[1]?.toLowerCase();
        const condition = state === undefined ? undefined : state === 'dry' ? 'dry' : 'lubricated';
        if (condition !== undefined && fastener.condition !== undefined && condition !== fastener.condition)
          yield {
            file,
            span,
            message: `Step ${step.fullLabel} tightens the ${thing.name} ${state}; the register says ${fastener.condition}.`,
            actual: state as string,
            expected: fastener.condition,
            steps: [step.fullLabel],
          };
        const agrees = said.some(({ quantity }) => {
          const typed = quantity.nominal;
          if (!typed || !sameKind(quantity.unit, right.unit)) return false;
          const half = multiply(convert(typed.step, quantity.unit, right.unit, true), rational(1, 2));
          return compare(absolute(subtract(convert(typed.value, quantity.unit, right.unit), value.value)), half) <= 0;
        });
        const first = said[0];
        if (!agrees && first)
          yield {
            file,
            span: proseSpan(prose, first.at, first.end),
            message: `Step ${step.fullLabel} tightens the ${thing.name} to ${first.quantity.text}; the register says ${fastener.torque}.`,
            actual: first.quantity.text,
            expected: fastener.torque as string,
            steps: [step.fullLabel],
            fix: {
              title: `Write ${fastener.torque}`,
              edits: [{ file, ...proseSpan(prose, first.at, first.end), text: fastener.torque as string }],
            },
          };
      }
    }
  },
};
