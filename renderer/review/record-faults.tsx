/** Says what of a review's file could not be read, and that nothing is written over it. */
import type { ReactNode } from 'react';
import { words } from '../words/words.ts';
import type { ReviewOf } from '../worker/queries/queries.ts';

export function RecordFaults({ review }: { readonly review: ReviewOf }): ReactNode {
  if (review.faults.length === 0) return null;
  return (
    <div className="band-message" role="alert">
      {words.recordFaults(review.path)} {review.faults.join(' ')}
    </div>
  );
}
