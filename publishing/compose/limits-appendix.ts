/** All limits of a guide on one list, by procedure, with the page of the step in which the value is read. */
import type { ProcedureFacts } from '../../procedures-schema/index.ts';
import type { BookBlock, Chapter, Inline } from '../book.ts';
import { measurementsAt } from './entries.ts';
import { stepLink } from './inline.ts';
import { limitCell, outcomeCell } from './limits-text.ts';
import { type ComposeInput, scopeOf } from './scope.ts';
import { wordsOf } from './spoken.ts';
import { valuesIn } from './units-edition.ts';

const text = (said: string): Inline[] => (said === '' ? [] : [{ kind: 'text', text: said }]);

/** undefined where nothing is measured. */
export function limitsChapter(procedures: readonly ProcedureFacts[], input: ComposeInput, startRight: boolean): Chapter | undefined {
  const words = wordsOf(input).guide;
  const said = wordsOf(input).book;
  const blocks = procedures.flatMap((facts): BookBlock[] => {
    const scope = scopeOf(facts, input, new Set());
    const places = measurementsAt(scope);
    const rows = facts.head.measurements.map((measurement) => {
      const limits =
        measurement.sensed === undefined
          ? limitCell(measurement, scope)
          : outcomeCell([[said.passes, valuesIn(measurement.sensed.pass, input)]]);
      const steps = [...places].filter(([, list]) => list.includes(measurement)).map(([step]) => facts.read.labels.byStep.get(step));
      const read = steps.flatMap((step, index): Inline[] =>
        step === undefined ? [] : [...text(index === 0 ? '' : ', '), stepLink(step, false, scope)],
      );
      return [[{ kind: 'strong', text: measurement.name } as const], limits.length === 0 ? text(said.noLimit) : limits, read];
    });
    if (rows.length === 0) return [];
    return [
      { kind: 'heading', level: 2, text: `${facts.head.id} ${facts.head.title}`, anchor: `limits ${facts.head.id}`, bookmark: false },
      { kind: 'table', head: words.limitsHead.map(text), rows, align: ['left', 'left', 'left'], widths: [210, 480, 310], full: true },
    ];
  });
  if (blocks.length === 0) return undefined;
  const intro: BookBlock = { kind: 'paragraph', style: 'lead', inline: text(words.limitsIntro) };
  return { title: words.limitsTitle, anchor: 'limits', startRight, blocks: [intro, ...blocks] };
}
