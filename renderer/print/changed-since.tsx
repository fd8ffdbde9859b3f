/** Which earlier issue the bars in the margin count from: a revision that the library's history keeps. */
import { type ReactNode, useEffect, useState } from 'react';
import { history, historyText } from '../state/saving.ts';
import { say, shown } from '../state/shown.ts';
import { documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import type { Edition } from '../worker/queries/queries.ts';

type Revision = Awaited<ReturnType<typeof history>>['revisions'][number];

/** What was chosen, of which document. */
export interface Since {
  readonly file: string | undefined;
  readonly revision: string;
  readonly earlier?: Edition['earlier'];
}
export const NO_BARS: Since = { file: undefined, revision: '' };

interface Props {
  readonly file: string;
  readonly chosen: string;
  readonly take: (since: Since) => void;
}

export function ChangedSince({ file, chosen, take }: Props): ReactNode {
  const [revisions, setRevisions] = useState<readonly Revision[]>([]);
  useEffect(() => {
    history(file).then(
      (found) => setRevisions(found.revisions),
      () => setRevisions([]),
    );
  }, [file]);
  if (revisions.length === 0) return null;
  const choose = async (revision: string): Promise<void> => {
    take({ file, revision });
    if (revision === '') return;
    const numbers = new Set((documents.get(file)?.text ?? '').match(/[A-Za-z0-9-]*\d[A-Za-z0-9-]*/g));
    const wanted = file.startsWith('guides/')
      ? (shown.get().overview?.documents ?? [])
          .filter(({ kind, number }) => kind === 'procedure' && numbers.has(number))
          .map((one) => one.file)
      : [file];
    const texts: Record<string, string> = {};
    for (const path of wanted) {
      // One that was not there then has no earlier text: all of it is new.
      const earlier = await historyText(path, revision).catch(() => undefined);
      if (earlier) texts[path] = earlier.text.replace(/^\uFEFF/, '');
    }
    if (Object.keys(texts).length === 0) return say(words.notThereThen, true);
    take({ file, revision, earlier: texts });
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
