/** What changed since an earlier text of the procedure, by meaning, gravest first; each change leads to the text of today. */
import { type ReactNode, useEffect, useState } from 'react';
import { type Changed, WEIGHTS } from '../../procedures-schema/review/index.ts';
import { DocumentChoice, useProcedure } from '../parts/document-choice.tsx';
import { useAnswer } from '../state/answer.ts';
import { useKept } from '../state/kept-state.ts';
import { history, historyText } from '../state/saving.ts';
import { goTo, say } from '../state/shown.ts';
import { documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';

type Revision = Awaited<ReturnType<typeof history>>['revisions'][number];
const ON_DISK = 'on disk';

interface Kept {
  readonly file: string | undefined;
  readonly chosen: string;
  /** The earlier text; undefined while it is fetched. */
  readonly text: string | undefined;
}
const NOTHING_KEPT: Kept = { file: undefined, chosen: ON_DISK, text: undefined };

export function Changes(): ReactNode {
  const file = useProcedure();
  const [revisions, setRevisions] = useState<readonly Revision[]>([]);
  const [kept, setKept] = useKept<Kept>('changes since', NOTHING_KEPT);
  const { chosen, text: earlier } = kept.file === file ? kept : { chosen: ON_DISK, text: undefined };
  const setChosen = (next: string, text?: string): void => setKept({ file, chosen: next, text });
  useEffect(() => {
    if (file === undefined) return;
    setRevisions([]);
    history(file).then(
      (found) => setRevisions(found.revisions),
      (error: Error) => say(error.message, true),
    );
  }, [file]);
  useEffect(() => {
    if (file === undefined) return;
    let late = false;
    if (chosen === ON_DISK) setKept({ file, chosen, text: documents.get(file)?.saved });
    else if (chosen !== 'beside')
      historyText(file, chosen).then(
        ({ text }) => {
          if (!late) setKept({ file, chosen, text: text.replace(/^\uFEFF/, '') });
        },
        (error: Error) => say(error.message, true),
      );
    return () => {
      late = true;
    };
  }, [file, chosen, setKept]);
  const changed = useAnswer('compare', file === undefined || earlier === undefined ? undefined : { file, earlier });
  return (
    <div className="one">
      <p className="row">
        <DocumentChoice />
        <label className="field">
          {words.earlier}
          <select value={chosen} onChange={(event) => setChosen(event.target.value)}>
            <option value={ON_DISK}>{words.asOnDisk}</option>
            {revisions.map(({ id, date, author, subject }) => (
              <option key={id} value={id}>
                {date.slice(0, 10)} {author}: {subject}
              </option>
            ))}
            {chosen === 'beside' ? <option value="beside">{words.beside}</option> : null}
          </select>
        </label>
        <label className="field">
          {words.besideFile}
          <input
            type="file"
            accept=".md,text/markdown"
            onChange={(event) => {
              const [one] = event.target.files ?? [];
              if (!one) return;
              void one.text().then((text) => setChosen('beside', text.replace(/^\uFEFF/, '')));
            }}
          />
        </label>
      </p>
      {revisions.length === 0 ? <p className="quiet">{words.noHistory}</p> : null}
      {changed === undefined ? (
        <p className="quiet">{words.checking}</p>
      ) : changed.length === 0 ? (
        <p>{words.nothingChanged}</p>
      ) : (
        WEIGHTS.filter((weight) => changed.some((one) => one.weight === weight)).map((weight) => (
          <section key={weight} className="changes">
            <h2>
              {words.weight[weight]} <span className="quiet">({changed.filter((one) => one.weight === weight).length})</span>
            </h2>
            <ul>
              {changed
                .filter((one) => one.weight === weight)
                .map((one) => (
                  <One key={`${one.kind}${one.about}${one.before}${one.after}`} one={one} file={file ?? ''} />
                ))}
            </ul>
          </section>
        ))
      )}
    </div>
  );
}

function One({ one, file }: { readonly one: Changed; readonly file: string }): ReactNode {
  const { span } = one;
  const told = (
    <>
      <b>{one.about}</b> {words.changed[one.kind]}
    </>
  );
  return (
    <li>
      {span ? (
        <button type="button" className="plain" onClick={() => goTo(file, span.start, span.end)}>
          {told}
        </button>
      ) : (
        <span>{told}</span>
      )}
      {one.kind === 'revision kept' ? (
        <>
          {' '}
          <span>({one.after ?? one.before})</span>
        </>
      ) : one.kind === 'verdict changed' ? (
        // What was lost and what was won are not the old word and the new one: a refuted text is no gain.
        <>
          {': '}
          <span className={one.after === 'proved' ? '' : 'wrong'}>
            {one.before} → {one.after}
          </span>
        </>
      ) : (
        <>
          {one.before === undefined ? null : <del>{one.before}</del>}
          {one.after === undefined ? null : <ins>{one.after}</ins>}
        </>
      )}
    </li>
  );
}
