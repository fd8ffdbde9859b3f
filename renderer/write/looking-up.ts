/** Looks up what stands at the caret: where a name is written down and the way back from there, and what resting the mouse there would show. */
import { textHand } from '../state/focus.ts';
import { goTo, sayHere, shown, tell } from '../state/shown.ts';
import { core } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import { stepsAt } from './at-caret.ts';
import { misspeltAt } from './spelling-here.ts';

/** Where somebody went from, the last one last. */
const left: { readonly file: string; readonly caret: number }[] = [];

export async function toDefinition(): Promise<void> {
  const { file, caret } = shown.get();
  if (file === undefined) return;
  const here = await core.ask('named', { file, offset: caret });
  if (here === undefined) return sayHere(words.noNameHere);
  const { definition } = here;
  if (definition === undefined) return sayHere(words.writtenNowhere);
  const { span } = definition;
  if (definition.file === file && span.start <= caret && caret <= span.end) return sayHere(words.writtenHere);
  left.push({ file, caret });
  goTo(definition.file, span.start, span.end);
}

export function backFromThere(): void {
  const last = left.pop();
  if (last) goTo(last.file, last.caret);
  else sayHere(words.cameFromNowhere);
}

/** In its place over the text; whoever listens hears it, with what the band beside the step shows. */
export async function showHere(): Promise<void> {
  const { file, caret, variant } = shown.get();
  if (file === undefined) return;
  const [found, spelt] = [await core.ask('hover', { file, offset: caret }), await misspeltAt(caret)];
  const margin = await core.ask('margin', { file, ...(variant === undefined ? {} : { variant }) });
  const step = margin && stepsAt(margin, caret).at(-1);
  const band = step === undefined ? [] : [`${words.stepCalled(step.fullLabel)}: ${words.band[step.beside]}.`];
  if (found.length === 0 && spelt === undefined) return sayHere(band[0] ?? words.nothingToShow);
  textHand()?.showHover();
  tell(
    [
      ...found.map(({ title, lines }) => `${title}: ${lines.join(' ')}`),
      ...(spelt === undefined ? [] : [`${spelt.word}: ${words.misspeltNone}`]),
      ...band,
    ].join(' '),
  );
}
