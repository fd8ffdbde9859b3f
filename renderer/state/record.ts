/** The review of the procedure at hand: its text is a file of the library like any other, changed and undone in the same journal. */
import { EMPTY_RECORD, type ReviewRecord, recordPath, writeRecord } from '../../procedures-schema/review/index.ts';
import type { ReviewOf } from '../worker/queries/queries.ts';
import { useAnswer } from './answer.ts';
import { shown } from './shown.ts';
import { newStore } from './store.ts';
import { change, documents } from './workspace.ts';

/** Who sits here; kept by the browser, asked for once. */
export const person = newStore({ initials: localStorage.getItem('initials') ?? '', as: localStorage.getItem('signs as') ?? '' });

export function setPerson(initials: string, as = person.get().as): void {
  localStorage.setItem('initials', initials);
  localStorage.setItem('signs as', as);
  person.set({ initials, as });
}

export const today = (): string => {
  const now = new Date();
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
};

/** `whole`: with hash, readings said outright and readings to accept; else these are empty. */
export function useReview(file: string | undefined, whole = false): ReviewOf | undefined {
  const { overview } = shown.usePick('overview');
  const number = overview?.documents.find((one) => one.file === file && one.kind === 'procedure')?.number;
  const record = number === undefined ? '' : (documents.get(recordPath(number))?.text ?? '');
  return useAnswer('reviewOf', file === undefined || number === undefined ? undefined : { file, record, whole });
}

/** Writes the whole record anew; refused where something in the file could not be read, since that would be lost. */
export function putRecord(title: string, review: ReviewOf, next: (record: ReviewRecord) => ReviewRecord): boolean {
  if (review.faults.length > 0) return false;
  const before = documents.get(review.path)?.text ?? '';
  const text = writeRecord(review.number, next(review.record ?? EMPTY_RECORD));
  change(title, [{ path: review.path, edits: [{ start: 0, end: before.length, text }] }]);
  return true;
}
