/** Readings of a step that the proof rests on, each accepted once by a person. */
import type { ReactNode } from 'react';
import type { SentenceReading } from '../../procedures-schema/assist/index.ts';
import { accept } from '../state/margin-deeds.ts';
import { words } from '../words/words.ts';
import type { ReviewOf } from '../worker/queries/queries.ts';

interface Props {
  readonly readings: readonly SentenceReading[];
  readonly review: ReviewOf;
}

export function ToAccept({ readings, review }: Props): ReactNode {
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
      <button type="button" className="plain" onClick={() => accept(open, review)}>
        {words.acceptReading}
      </button>
    </p>
  );
}
