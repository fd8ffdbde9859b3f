/**
 * What a writer does at the caret by key: go from finding to finding, have one put right, settle, accept, look up. Finds what stands there and hands
 * it to the same functions as the buttons of the margin; where nothing does, says so.
 */
import type { Margin, MarginLine } from '../../procedures-schema/assist/index.ts';
import type { Finding } from '../../procedures-schema/index.ts';
import { shownKeys } from '../actions/shown-keys.ts';
import { findingsOf, GRADES } from '../parts/findings.tsx';
import { accept, checkedNow, mend } from '../state/margin-deeds.ts';
import { openPanel } from '../state/panel.ts';
import { reviewNow } from '../state/record.ts';
import { goTo, say, sayHere, shown, tell } from '../state/shown.ts';
import { core, documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import type { ReviewOf } from '../worker/queries/queries.ts';
import { findingsAt, namesAt, nextStop, stepsAt, stopsOf, toAcceptAt } from './at-caret.ts';
import { bringNoteInSight } from './note-in-sight.ts';

export async function toFinding(which: 'next' | 'previous'): Promise<void> {
  await checkedNow();
  const { file, caret } = shown.get();
  const stops = stopsOf(findingsOf(file));
  const stop = nextStop(stops, caret, which);
  if (file === undefined || stop === undefined) return sayHere(words.nothingFoundHere);
  goTo(file, stop.at);
  bringNoteInSight();
  const before = stops.slice(0, stops.indexOf(stop)).reduce((sum, { findings }) => sum + findings.length, 0);
  sayHere(words.findingOf(before + 1, before + stop.findings.length, findingsOf(file).length));
  tell(stop.findings.map(asHeard).join(' '));
}

/** What the margin shows of it, in one breath. */
const asHeard = ({ severity, message, expected, fix }: Finding): string =>
  [
    `${GRADES[severity]}: ${message}`,
    ...(expected === undefined ? [] : [`${words.right}: ${expected}`]),
    ...(fix === undefined ? [] : [`${words.fix}: ${fix.title}`]),
  ].join(' ');

export async function mendHere(): Promise<void> {
  await checkedNow();
  const { file, caret } = shown.get();
  const here = findingsAt(findingsOf(file), caret, textOf(file));
  const [first] = here.filter(({ fix }) => fix !== undefined);
  if (first) return mend(first);
  if (here.length === 0) return sayHere(words.noFindingHere);
  const margin = await marginNow();
  if (margin && namesAt(margin, caret).length > 0) return sayHere(words.settleInstead(shownKeys('Shift+F8')));
  const [step] = margin ? stepsAt(margin, caret) : [];
  sayHere(step && isUnread(step) ? words.outrightInstead(shownKeys('Shift+F4')) : words.noFixHere);
}

const isUnread = ({ readings }: MarginLine): boolean => readings.some(({ status }) => status === 'unread' || status === 'partly');

export async function outrightHere(): Promise<void> {
  await checkedNow();
  const margin = await marginNow();
  if (margin === undefined) return sayHere(words.onlyProcedures);
  const steps = stepsAt(margin, shown.get().caret);
  const unread = steps.find(isUnread);
  if (unread) openPanel('outright', { line: unread.line });
  else sayHere(steps.length === 0 ? words.noStepHere : words.allUnderstoodHere);
}

export async function acceptHere(): Promise<void> {
  await checkedNow();
  const { file, caret } = shown.get();
  const review = file === undefined ? undefined : await reviewNow(file);
  const margin = await marginNow(review);
  if (margin === undefined || review === undefined) return sayHere(words.onlyProcedures);
  const steps = stepsAt(margin, caret);
  const open = toAcceptAt(margin, caret);
  if (open) return accept(open.readings, review);
  const earned = steps.some(({ readings }) => readings.some(({ earns }) => earns));
  sayHere(steps.length === 0 ? words.noStepHere : earned ? words.allAcceptedHere : words.nothingToAccept);
}

export async function settleHere(): Promise<void> {
  await checkedNow();
  const margin = await marginNow();
  if (margin === undefined) return sayHere(words.onlyProcedures);
  if (namesAt(margin, shown.get().caret).length > 0) openPanel('settle');
  else
    sayHere(margin.settle.length > 0 ? words.nothingToSettleHere(margin.settle.length, shownKeys('Mod+Shift+F8')) : words.nothingToSettle);
}

export async function settleAll(): Promise<void> {
  await checkedNow();
  const margin = await marginNow();
  if (margin === undefined) return sayHere(words.onlyProcedures);
  if (margin.settle.length > 0) openPanel('settle', { whole: true });
  else sayHere(words.nothingToSettle);
}

/** The band and the page's notes are of it from then on. */
export async function toVariant(which: 'next' | 'previous'): Promise<void> {
  const margin = await marginNow();
  if (margin === undefined) return sayHere(words.onlyProcedures);
  const all = [undefined, ...margin.variants];
  const at = all.findIndex((one) => one?.name === shown.get().variant);
  const to = all.at((at + (which === 'next' ? 1 : -1)) % all.length);
  shown.set({ variant: to?.name });
  say(`${words.variant}: ${to === undefined ? words.allVariants : `${to.name}, ${words[to.verdict]}`}`);
}

const textOf = (file: string | undefined): string => (file === undefined ? '' : (documents.get(file)?.text ?? ''));

/** Of the open text as it stands now; undefined where it is no procedure. */
async function marginNow(review?: ReviewOf): Promise<Margin | undefined> {
  const { file } = shown.get();
  if (file === undefined || !file.startsWith('procedures/')) return undefined;
  return core.ask('margin', { file, accepted: review?.record.accepted.map(({ key }) => key) ?? [] });
}
