/** What changed in a document since an earlier state of its library, by meaning, gravest first; each change leads to where it stands today. */
import { type ReactNode, useEffect, useState } from 'react';
import { type Changed, WEIGHTS } from '../../procedures-schema/review/index.ts';
import { DocumentChoice, useDocument } from '../parts/document-choice.tsx';
import { useAnswer } from '../state/answer.ts';
import { useKept } from '../state/kept-state.ts';
import { historyAround } from '../state/saving.ts';
import { goTo, say, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { Earlier } from '../worker/queries/queries.ts';
import { asSaved, atRevision, besideFolder, besideText } from './earlier.ts';

type Revision = Awaited<ReturnType<typeof historyAround>>['revisions'][number];
const ON_DISK = 'on disk';
const BESIDE = { 'beside file': words.beside, 'beside folder': words.besideFolderChosen } as const;

interface Kept {
  readonly file: string | undefined;
  readonly chosen: string;
  /** Undefined while it is fetched; null: the document was not there then. Not asked for what was saved. */
  readonly earlier: Earlier | null | undefined;
}
const NOTHING_KEPT: Kept = { file: undefined, chosen: ON_DISK, earlier: undefined };

export function Changes(): ReactNode {
  const file = useDocument();
  const { overview, unsaved } = shown.usePick('overview', 'unsaved');
  const number = overview?.documents.find((one) => one.file === file)?.number ?? '';
  const [revisions, setRevisions] = useState<readonly Revision[]>([]);
  const [kept, setKept] = useKept<Kept>('changes since', NOTHING_KEPT);
  // Where nobody chose and nothing waits to be saved, what was saved last would say of every text that nothing changed.
  const first = file !== undefined && unsaved.has(file) ? ON_DISK : (revisions[0]?.id ?? ON_DISK);
  const { chosen, earlier } = kept.file === file ? kept : { chosen: first, earlier: undefined };
  useEffect(() => {
    if (file === undefined) return;
    setRevisions([]);
    historyAround(file).then(
      (found) => setRevisions(found.revisions),
      (error: Error) => say(error.message, true),
    );
  }, [file]);
  const isRevision = chosen !== ON_DISK && !(chosen in BESIDE);
  useEffect(() => {
    if (file === undefined || !isRevision || earlier !== undefined) return;
    let late = false;
    atRevision(chosen, file, number).then(
      (found) => {
        if (!late) setKept({ file, chosen, earlier: found ?? null });
      },
      (error: Error) => say(error.message, true),
    );
    return () => {
      late = true;
    };
  }, [file, number, chosen, earlier, isRevision, setKept]);
  /** `fetched`: of what was chosen beside. */
  const choose = (next: string, fetched?: Promise<Earlier | undefined>): void => {
    if (fetched === undefined) return setKept({ file, chosen: next, earlier: undefined });
    fetched.then(
      (found) => setKept({ file, chosen: next, earlier: found ?? null }),
      (error: Error) => say(error.message, true),
    );
  };
  const against = chosen === ON_DISK ? asSaved() : earlier;
  const answer = useAnswer('compare', file === undefined || !against ? undefined : { file, earlier: against });
  const changed = against === null ? null : answer;
  return (
    <div className="one">
      <p className="row">
        <DocumentChoice guides />
        <label className="field">
          {words.earlier}
          <select value={chosen} onChange={(event) => choose(event.target.value)}>
            <option value={ON_DISK}>{words.asOnDisk}</option>
            {revisions.map(({ id, date, author, subject }) => (
              <option key={id} value={id}>
                {revisionSaid({ date, author, subject })}
              </option>
            ))}
            {chosen in BESIDE ? <option value={chosen}>{BESIDE[chosen as keyof typeof BESIDE]}</option> : null}
          </select>
        </label>
      </p>
      <details open={chosen in BESIDE || undefined}>
        <summary>{words.besideOwn}</summary>
        <p className="row beside-own">
          <label className="field">
            {words.besideFile}
            <input
              type="file"
              accept=".md,text/markdown"
              onChange={(event) => {
                const [one] = event.target.files ?? [];
                if (one && file !== undefined) choose('beside file', besideText(one, file));
              }}
            />
          </label>
          <label className="field">
            {words.besideFolder}
            <input
              type="file"
              // The types of the page library do not know it; every browser does.
              {...{ webkitdirectory: '' }}
              onChange={(event) => {
                const all = [...(event.target.files ?? [])];
                if (all.length > 0 && file !== undefined) choose('beside folder', besideFolder(all, file, number));
              }}
            />
          </label>
        </p>
      </details>
      {revisions.length === 0 ? <p className="quiet">{words.noHistory}</p> : null}
      {changed === undefined ? (
        <p className="quiet">{words.checking}</p>
      ) : changed === null ? (
        <p className={chosen === 'beside folder' ? 'wrong' : 'quiet'}>
          {chosen === 'beside folder' ? words.notInFolder : words.notThereThen}
        </p>
      ) : changed.length === 0 ? (
        <>
          <p>{words.nothingChanged(sinceSaid(chosen, revisions))}</p>
          {chosen === ON_DISK && revisions.length > 0 ? <p className="quiet">{words.chooseEarlier}</p> : null}
        </>
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
                  <One key={`${one.kind}${one.about}${one.before}${one.after}`} one={one} file={one.file ?? file ?? ''} />
                ))}
            </ul>
          </section>
        ))
      )}
    </div>
  );
}

const revisionSaid = ({ date, author, subject }: Pick<Revision, 'date' | 'author' | 'subject'>): string =>
  `${date.slice(0, 10)} ${author}: ${subject}`;

/** What was compared with, as the choice names it. */
function sinceSaid(chosen: string, revisions: readonly Revision[]): string {
  if (chosen in BESIDE) return BESIDE[chosen as keyof typeof BESIDE];
  const revision = revisions.find(({ id }) => id === chosen);
  return revision ? revisionSaid(revision) : words.asOnDisk;
}

/** A verdict is a word of the core. */
const verdictSaid = (text: string | undefined): string | undefined =>
  text === 'proved' || text === 'refuted' || text === 'not proved' ? words[text] : text;

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
            {verdictSaid(one.before)} → {verdictSaid(one.after)}
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
