/**
 * Which earlier issue the bars in the margin count from: a revision that the library's history keeps, with the registers, the procedures and the figures
 * of then.
 */
import { type ReactNode, useEffect, useState } from 'react';
import { atRevision } from '../review/earlier.ts';
import { historyAround, historyFigures } from '../state/saving.ts';
import { say } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { Edition } from '../worker/queries/queries.ts';

type Revision = Awaited<ReturnType<typeof historyAround>>['revisions'][number];

/** What was chosen, of which document. */
export interface Since {
  readonly file: string | undefined;
  readonly revision: string;
  readonly earlier?: Edition['earlier'];
}
export const NO_BARS: Since = { file: undefined, revision: '' };

interface Props {
  readonly file: string;
  readonly number: string;
  readonly chosen: string;
  readonly take: (since: Since) => void;
}

export function ChangedSince({ file, number, chosen, take }: Props): ReactNode {
  const [revisions, setRevisions] = useState<readonly Revision[]>([]);
  useEffect(() => {
    historyAround(file).then(
      (found) => setRevisions(found.revisions),
      () => setRevisions([]),
    );
  }, [file]);
  if (revisions.length === 0) return null;
  const choose = async (revision: string): Promise<void> => {
    take({ file, revision });
    if (revision === '') return;
    try {
      const [earlier, { figures }] = await Promise.all([atRevision(revision, file, number), historyFigures(revision)]);
      if (earlier === undefined) {
        take(NO_BARS);
        return say(words.notThereThen, true);
      }
      take({ file, revision, earlier: { texts: earlier.texts, figures } });
    } catch (error) {
      take(NO_BARS);
      say((error as Error).message, true);
    }
  };
  return (
    <label>
      {words.changedSince}
      <select value={chosen} onChange={(event) => void choose(event.target.value)}>
        <option value="">{words.noBars}</option>
        {revisions.map(({ id, date, subject }) => (
          <option key={id} value={id}>
            {date.slice(0, 10)} {subject}
          </option>
        ))}
      </select>
    </label>
  );
}
