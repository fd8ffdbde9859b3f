/**
 * What the margin offers, done: a finding put right, a reading accepted, a name settled. By a button beside the line or by a key at the caret: both
 * come here. Asks before it does what belongs to a text that was changed since.
 */
import type { KindGuess, NameToSettle, SentenceReading } from '../../procedures-schema/assist/index.ts';
import type { Finding } from '../../procedures-schema/index.ts';
import { words } from '../words/words.ts';
import type { ReviewOf } from '../worker/queries/queries.ts';
import { openPanel } from './panel.ts';
import { person, putRecord } from './record.ts';
import { say, shown } from './shown.ts';
import { applyProposed, change, core, documents } from './workspace.ts';

/** Until what is shown is of the text as it stands, `between` files too where that is wanted. */
export const checkedNow = (between = false): Promise<void> =>
  new Promise((resolve) => {
    const done = (): boolean => !shown.get().checking && !(between && shown.get().due);
    if (done()) return resolve();
    const stop = shown.listen(
      () => {
        if (!done()) return;
        stop();
        resolve();
      },
      'checking',
      'due',
    );
  });

export function findingsOf(file: string | undefined): readonly Finding[] {
  const { findings, between } = shown.get();
  return file === undefined ? [] : [...(findings.get(file) ?? []), ...between.filter((one) => one.file === file)];
}

/** The edits of a finding are of the text it was found in: in one that was typed in since, the same finding is looked for first. */
export async function mend(finding: Finding): Promise<void> {
  await checkedNow(shown.get().between.includes(finding));
  const same = findingsOf(finding.file).filter(
    ({ check, message, fix }) => check === finding.check && message === finding.message && fix?.title === finding.fix?.title,
  );
  const away = ({ span }: Finding): number => Math.abs(span.start - finding.span.start);
  const now = same.includes(finding) ? finding : [...same].sort((a, b) => away(a) - away(b))[0];
  if (!now?.fix) return say(words.findingGone, true);
  const byFile = new Map<string, { start: number; end: number; text: string }[]>();
  for (const { file, start, end, text } of now.fix.edits) byFile.set(file, [...(byFile.get(file) ?? []), { start, end, text }]);
  change(
    now.fix.title,
    [...byFile].map(([path, edits]) => ({ path, edits })),
  );
  say(words.done(now.fix.title, byFile.size));
}

/** Of one step, by the person who sits here; who that is, is asked for once. */
export function accept(readings: readonly SentenceReading[], review: ReviewOf): void {
  const { initials } = person.get();
  if (initials.trim() === '') return openPanel('accept');
  const accepted = readings.map(({ key, text, words: read }) => ({ key, by: initials, words: `${text} = ${read.join('; ')}` }));
  const put = putRecord(words.accept, review, (record) => ({ ...record, accepted: [...record.accepted, ...accepted] }));
  if (put) say(words.acceptedNow(readings.flatMap(({ words: read }) => read).join('; '), initials));
  else say(review.faults.length > 0 ? words.recordFaults(review.path) : words.readAnew, true);
}

/** Writes the near name in its place. */
export function takeName({ name, span, inBrackets }: NameToSettle, file: string, near: string): boolean {
  const { start, end } = span;
  // As one line without its ink: a name may run over the end of a line.
  const there = (documents.get(file)?.text.slice(start, end) ?? '').replace(/[*_]/g, '').replace(/\s+/g, ' ');
  if (!there.includes(name)) {
    say(words.readAnew, true);
    return false;
  }
  change(`${name}: ${near}`, [{ path: file, edits: [{ start, end, text: inBrackets ? `[${near}]` : near }] }]);
  say(words.done(`${name}: ${near}`, 1));
  return true;
}

/** Writes the name into a register. */
export async function registerName(name: string, guess: KindGuess): Promise<boolean> {
  const made = await core.ask('registerName', { name, guess });
  if (made.ok) applyProposed(made.title, made.files);
  else say(made.reason, true);
  return made.ok;
}
