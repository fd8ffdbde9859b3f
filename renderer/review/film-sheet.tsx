/** The film of a procedure: the script beside the text, a recording as a strip of times, and where the two have come apart. */
import { type ReactNode, useEffect, useState } from 'react';
import { captionsText, type Drift, FILM_DRAFT } from '../../procedures-schema/narration/index.ts';
import { call } from '../host.ts';
import { DocumentChoice, useProcedure } from '../parts/document-choice.tsx';
import { allFindings, Grade } from '../parts/findings.tsx';
import { useAnswer } from '../state/answer.ts';
import { filming } from '../state/filming.ts';
import { useKept } from '../state/kept-state.ts';
import { writeOut } from '../state/saving.ts';
import { goTo, shown } from '../state/shown.ts';
import { core, here } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import type { Film } from '../worker/queries/queries.ts';
import { FilmStrip } from './film-strip.tsx';

export const clock = (seconds: number): string => `${Math.floor(seconds / 60)}:${String(Math.floor(seconds % 60)).padStart(2, '0')}`;

export function FilmSheet(): ReactNode {
  const file = useProcedure();
  const { overview, due } = shown.usePick('overview', 'findings', 'between', 'due');
  const [draft, setDraft] = useKept('film as draft', false);
  const now = filming.use();
  const [kept, setModel] = useKept('film of model', '');
  const [record, setRecord] = useState<string>();
  const document = overview?.documents.find((one) => one.file === file);
  // A model that this document is not for has no film of it.
  const model = document?.models.includes(kept) ? kept : '';
  const captions = now.file === file ? now.captions : undefined;
  const number = document?.number;
  useEffect(() => {
    setRecord(undefined);
    if (number === undefined) return;
    call('file.read', { library: here.library, path: `narration/${number}.yaml` }).then(
      ({ file: found }) => setRecord(found?.text),
      () => undefined,
    );
  }, [number]);
  const ask =
    file === undefined
      ? undefined
      : {
          file,
          ...(model === '' ? {} : { model }),
          ...(captions === undefined ? {} : { captions }),
          ...(record === undefined ? {} : { record }),
        };
  const film = useAnswer('film', ask);
  const blocking = useAnswer('blocking', file === undefined || due ? undefined : { file, findings: allFindings() });
  const errors = blocking?.length ?? 0;
  const drifts = film?.recording?.drifts;
  useEffect(() => {
    if (drifts && captions !== undefined) filming.set({ drifts });
  }, [drifts, captions]);
  const write = async (): Promise<void> => {
    if (!ask) return;
    for (const { name, text } of await core.ask('filmFiles', { ...ask, draft })) await writeOut(name, new TextEncoder().encode(text));
  };
  return (
    <div className="one">
      <p className="row">
        <DocumentChoice />
        <select aria-label={words.model} value={model} onChange={(event) => setModel(event.target.value)}>
          <option value="">{words.allModels}</option>
          {document?.models.map((name) => (
            <option key={name}>{name}</option>
          ))}
        </select>
        <label className="field">
          {words.captionsFile}
          <input
            type="file"
            accept=".vtt,.srt"
            onChange={(event) => {
              const [one] = event.target.files ?? [];
              if (one)
                void one
                  .arrayBuffer()
                  .then((read) =>
                    filming.set({ file, model: undefined, captions: captionsText(new Uint8Array(read)), name: one.name, drifts: [] }),
                  );
            }}
          />
        </label>
        <button type="button" disabled={!film || !(draft || blocking?.length === 0)} onClick={() => void write()}>
          {words.writeScript}
        </button>
        <label className="tick">
          <input type="checkbox" checked={draft} onChange={(event) => setDraft(event.target.checked)} /> {words.editionTicks.draft}
        </label>
      </p>
      {errors > 0 && !draft ? <p className="wrong">{words.filmHeld(errors)}</p> : null}
      {/* What may not be filmed as it is must not look issued, on a picture of the screen either. */}
      {errors > 0 || draft ? <p className="wrong">{FILM_DRAFT}</p> : null}
      {film ? (
        <Told film={film} file={file ?? ''} name={captions === undefined ? '' : now.name} />
      ) : (
        <p className="quiet">{words.checking}</p>
      )}
    </div>
  );
}

function Told({ film, file, name }: { readonly film: Film; readonly file: string; readonly name: string }): ReactNode {
  const { recording, passages } = film;
  const driftsAt = (key: string): readonly Drift[] => recording?.drifts.filter((one) => one.passages[0] === key) ?? [];
  const loose = recording?.drifts.filter((one) => one.passages.length === 0) ?? [];
  const mainTake = (index: number) => recording?.takes.find((take) => take.passage === index && take.role === 'main');
  return (
    <>
      <p className="quiet">
        {words.estimated} {clock(film.seconds)}
        {recording ? `; ${name} ${clock(recording.seconds)}. ${words.driftCount(recording.drifts.length)}` : ''}
      </p>
      {film.problems.map((text) => (
        <p key={text} className="wrong">
          {text}
        </p>
      ))}
      {recording ? <FilmStrip film={film} /> : null}
      <table className="script">
        <thead>
          <tr>
            <th scope="col">{words.filmTime}</th>
            <th scope="col">{words.step}</th>
            <th scope="col">{words.spokenWords}</th>
            <th scope="col">{words.onScreen}</th>
          </tr>
        </thead>
        <tbody>
          {passages.map((passage, index) => {
            const take = mainTake(index);
            return (
              <tr key={passage.key} id={`passage ${index}`} className={`passage-${passage.kind}`}>
                <td className="number">{take ? clock(take.start) : recording ? '–' : `~${clock(passage.time.start)}`}</td>
                <th scope="row">
                  <button type="button" className="plain" onClick={() => goTo(file, passage.span.start, passage.span.end)}>
                    {passage.fullLabel ?? (passage.sectionTitle || words.filmTitle)}
                  </button>
                </th>
                <td>
                  {passage.spoken}
                  {passage.redo === undefined || passage.redo === 'nothing' ? null : (
                    <p className="wrong">▲ {words.makeAgain[passage.redo]}</p>
                  )}
                  {driftsAt(passage.key).map((drift) => (
                    <DriftNote key={`${drift.kind}${drift.message}`} drift={drift} />
                  ))}
                </td>
                <td className="quiet">{passage.screen.join('; ')}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {loose.length > 0 ? (
        <section>
          <h2>{words.onlyInFilm}</h2>
          {loose.map((drift) => (
            <DriftNote key={`${drift.kind}${drift.start}${drift.message}`} drift={drift} />
          ))}
        </section>
      ) : null}
    </>
  );
}

export function DriftNote({ drift }: { readonly drift: Drift }): ReactNode {
  return (
    <div className={`note note-${drift.severity}`}>
      <p className="note-head">
        <Grade severity={drift.severity} /> {drift.start === undefined ? '' : `${clock(drift.start)} `}
        {drift.message}
      </p>
      {drift.expected === undefined ? null : (
        <p>
          <span className="note-word">{words.right}</span> {drift.expected}
        </p>
      )}
      {drift.actual === undefined ? null : (
        <p>
          <span className="note-word">{words.now}</span> {drift.actual}
        </p>
      )}
      <p>
        <span className="note-word">{words.why}</span> {drift.why} {drift.remedy}
      </p>
    </div>
  );
}
