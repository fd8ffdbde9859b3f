/** A walk as lines of text: section, label and words of each step, answers, and the state wherever it changed. */
import {
  type Breach,
  checkWording,
  type LabelledStep,
  type ToldState,
  tellState,
  type Walker,
  type WalkPosition,
} from '../../procedures-schema/index.ts';
import type { Answers } from './answers.ts';

/** Longer than any walk somebody would make; a walk that never ends is told, not printed for ever. */
const LONGEST = 2_000;

export interface PrintedWalk {
  readonly text: string;
  readonly steps: number;
  readonly breaches: readonly Breach[];
  readonly ended: boolean;
}

/** `wordsOf`: a step's words as printed. */
export function printWalk(walker: Walker, answers: Answers, wordsOf: (file: string, step: LabelledStep) => string): PrintedWalk {
  const lines: string[] = [];
  const breaches: Breach[] = [];
  let section = '';
  let before = '';
  let steps = 0;
  let at = walker.start();
  const tell = (position: WalkPosition): void => {
    for (const breach of position.breaches) {
      breaches.push(breach);
      lines.push(
        `        !! ${checkWording(breach.rule)}: ${breach.thing}${breach.missing.length > 0 ? ` (${breach.missing.join(', ')})` : ''}`,
      );
    }
    const told = stateLine(tellState(walker.layout, position.state));
    if (told !== before) lines.push(...told.split('\n').map((line) => `        ${line}`));
    before = told;
  };
  for (let turn = 0; turn < LONGEST && at.stop.kind !== 'end'; turn += 1) {
    if (at.stop.kind === 'step') {
      const { step, file } = at.stop;
      const title = `${file}: ${step.section.title}`;
      if (title !== section) lines.push('', step.section.title);
      section = title;
      lines.push(`  ${step.label.padEnd(4)}  ${wordsOf(file, step)}`);
      steps += 1;
      at = walker.next(at);
    } else if (at.stop.kind === 'question') {
      const { yes, told } = answers.answer(at, walker.layout);
      lines.push(`        ? ${at.stop.text.replace(/[.,:]+$/, '')}: ${yes ? 'yes' : 'no'}${told ? '' : ' (assumed)'}`);
      at = walker.next(at, yes);
    }
    tell(at);
  }
  const ended = at.stop.kind === 'end';
  lines.push('', at.stop.kind === 'end' ? `End: ${at.stop.end}.` : `Not ended after ${LONGEST} turns.`);
  return { text: `${lines.join('\n').trimStart()}\n`, steps, breaches, ended };
}

/** What the text requires at this point; whether the machine is in it, only somebody at the machine can say. */
function stateLine(state: ToldState): string {
  const by = new Map<string, string[]>();
  for (const { name, state: one } of state.sources) by.set(one, [...(by.get(one) ?? []), name]);
  const sources = [...by].map(([one, names]) => `${one}: ${names.join(', ')}`).join('; ');
  const rest = [
    ['off', state.open],
    ['out', state.out],
    ['loose', state.loose],
    ['put in', state.temporary],
  ].flatMap(([word, names]) => (names?.length ? [`${word as string}: ${(names as readonly string[]).join(', ')}`] : []));
  const hands = state.peopleClear ? 'people clear' : 'people may be at the machine';
  return [`required  ${sources}`, [hands, ...rest].join('; ')].join('\n          ');
}
