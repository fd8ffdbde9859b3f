/** Readings of a step that the proof rests on, each accepted once by a person. */
import type { ReactNode } from 'react';
import type { SentenceReading } from '../../procedures-schema/assist/index.ts';
import { reviewing } from '../review/reviewing.ts';
import { person, putRecord } from '../state/record.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { ReviewOf } from '../worker/queries/queries.ts';

interface Props {
  readonly readings: readonly SentenceReading[];
  readonly review: ReviewOf;
}

export function ToAccept({ readings, review }: Props): ReactNode {
  const { initials } = person.use();
  const earning = readings.filter(({ earns }) => earns);
  if (earning.length === 0) return null;
  const open = earning.filter(({ accepted }) => !accepted);
  if (open.length === 0) {
    const by = review.record.accepted.filter(({ key }) => earning.some((one) => one.key === key)).map((one) => one.by);
    return (
      <p className="quiet">
        {words.acceptedBy}: {[...new Set(by)].join(', ')}
      </p>
    );
  }
  return (
    <p>
      <button
        type="button"
        className="plain"
        onClick={() => {
          // Who accepts is asked for once, where signing is explained.
          if (initials.trim() === '') {
            reviewing.set({ sheet: 'signOff' });
            shown.set({ view: 'review' });
            return;
          }
          const accepted = open.map(({ key, text, words: read }) => ({ key, by: initials, words: `${text} = ${read.join('; ')}` }));
          putRecord(words.accept, review, (record) => ({ ...record, accepted: [...record.accepted, ...accepted] }));
        }}
      >
        {words.acceptReading}
      </button>
    </p>
  );
}
