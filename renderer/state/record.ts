/** The review of the document at hand: its text is a file of the library like any other, changed and undone in the same journal. */
import { useRef } from 'react';
import { EMPTY_RECORD, type ReviewRecord, recordPath, writeRecord } from '../../procedures-schema/review/index.ts';
import type { ReviewOf } from '../worker/queries/queries.ts';
import { useAnswer } from './answer.ts';
import type { Applied } from './documents.ts';
import { putSetting, setting } from './settings.ts';
import { shown } from './shown.ts';
import { newStore } from './store.ts';
import { change, core, documents } from './workspace.ts';

/** Who sits here; kept by the host, asked for once. */
export const person = newStore({ initials: setting('initials'), as: setting('signs as') });

export function setPerson(initials: string, as = person.get().as): void {
  person.set({ initials, as });
  void putSetting('initials', initials.trim());
  void putSetting('signs as', as.trim());
}

export const today = (): string => {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
};

/** `whole`: with hash, readings said outright and readings to accept; else these are empty. */
export function useReview(file: string | undefined, whole = false): ReviewOf | undefined {
  const { overview } = shown.usePick('overview');
  const number = overview?.documents.find((one) => one.file === file)?.number;
  const record = number === undefined ? '' : (documents.get(recordPath(number))?.text ?? '');
  const answer = useAnswer('reviewOf', file === undefined || number === undefined ? undefined : { file, record, whole });
  // While the record is read anew the last one stands: a sheet that went for a moment would take the focus and what is unfolded with it.
  const last = useRef<{ readonly file: string | undefined; readonly answer: ReviewOf }>(undefined);
  if (answer !== undefined) {
    last.current = { file, answer };
    readFrom.set(answer, record);
  }
  return answer ?? (last.current?.file === file ? last.current?.answer : undefined);
}

/** Once, for an action: as it stands now. */
export async function reviewNow(file: string): Promise<ReviewOf | undefined> {
  const number = shown.get().overview?.documents.find((one) => one.file === file)?.number;
  if (number === undefined) return undefined;
  const record = documents.get(recordPath(number))?.text ?? '';
  const answer = await core.ask('reviewOf', { file, record, whole: false });
  if (answer) readFrom.set(answer, record);
  return answer;
}

/** The text of the record that each review was made of. */
const readFrom = new WeakMap<ReviewOf, string>();

/**
 * A document that gets another number keeps what was said of it: its record goes along, and the old one is left empty, because the next document of
 * the old number must not begin with the remarks of another. Undefined: a record of the new number is there already, and neither is touched.
 */
export function recordAlong(from: string, to: string): readonly Applied[] | undefined {
  const [old, next] = [recordPath(from), recordPath(to)];
  const empty = (number: string): string => writeRecord(number, EMPTY_RECORD);
  const [text, there] = [documents.get(old)?.text ?? '', documents.get(next)?.text ?? ''];
  if (text === '' || text === empty(from)) return [];
  if (there !== '' && there !== empty(to)) return undefined;
  const head = empty(from).trimEnd();
  const moved = text.startsWith(head) ? empty(to).trimEnd() + text.slice(head.length) : text;
  return [
    { path: next, edits: [{ start: 0, end: there.length, text: moved }] },
    { path: old, edits: [{ start: 0, end: text.length, text: empty(from) }] },
  ];
}

/** Writes the whole record anew; refused where something in the file could not be read, or was not read yet, since that would be lost. */
export function putRecord(title: string, review: ReviewOf, next: (record: ReviewRecord) => ReviewRecord): boolean {
  if (review.faults.length > 0) return false;
  const before = documents.get(review.path)?.text ?? '';
  // What was put in since this was read would be lost.
  if (readFrom.get(review) !== before) return false;
  const text = writeRecord(review.number, next(review.record ?? EMPTY_RECORD));
  change(title, [{ path: review.path, edits: [{ start: 0, end: before.length, text }] }]);
  return true;
}
