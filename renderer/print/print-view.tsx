/** Print: choose a document and its edition, see the real pages, see what stands in the way, write the files. */
import { type ReactNode, useState } from 'react';
import { allFindings, FindingNote } from '../parts/findings.tsx';
import { NothingYet } from '../parts/nothing-yet.tsx';
import { Place } from '../parts/place.tsx';
import { useAnswer, useAnswered } from '../state/answer.ts';
import { useKept } from '../state/kept-state.ts';
import { showOut, writeOut } from '../state/saving.ts';
import { goTo, say, shown } from '../state/shown.ts';
import { core } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import type { Edition } from '../worker/queries/queries.ts';
import { Batch } from './batch.tsx';
import { asSaid, BindingChoice } from './binding-choice.tsx';
import { ChangedSince, NO_BARS, type Since } from './changed-since.tsx';
import { PagesPane } from './pages-pane.tsx';
import { PrintNotes } from './print-notes.tsx';
import { printing } from './printing.ts';
import { paperName, SheetsChoice } from './sheets-choice.tsx';
import { WriteFoot } from './write-foot.tsx';
import { writeAll, writing } from './writing.ts';

/** What a sheet that is folded or cut cannot carry. */
const ON_PAGES: ReadonlySet<string> = new Set(['fillable', 'attach']);
/** What the paper checklist has always, or never. */
const ON_FULL: ReadonlySet<string> = new Set(['large', 'signOff']);
const PAPERS = ['a4', 'letter', 'a5'] as const;
const TICKS = ['large', 'signOff', 'fillable', 'attach', 'obsolete', 'draft'] as const;

export function PrintView(): ReactNode {
  const { overview, file, due } = shown.usePick('overview', 'file', 'findings', 'between', 'due');
  const documents = [...(overview?.documents ?? [])].sort((a, b) => (a.kind === b.kind ? 0 : a.kind === 'guide' ? -1 : 1));
  const { asked: wish, choice: set } = printing.use();
  const [since, setSince] = useKept<Since>('changed since', NO_BARS);
  const [written, setWritten] = useState<string>();
  const wanted = wish !== undefined && wish.over === file ? wish.file : file;
  const document = documents.find((one) => one.file === wanted) ?? documents[0];
  const chosen = document?.file;
  const { revision: sinceWhen, earlier } = since.file === chosen ? since : NO_BARS;
  const models = document?.kind === 'procedure' ? document.models : (overview?.models ?? []);
  const { model, ...others } = set;
  // A model that this document is not for is no edition of it.
  const choice: typeof set = model === undefined || !models.includes(model) ? others : set;
  // What is written before the texts of then are there would have no bars, and nobody would see why.
  const fetching = sinceWhen !== '' && earlier === undefined;
  const edition: Edition | undefined =
    chosen === undefined || fetching ? undefined : { file: chosen, ...choice, ...(earlier ? { earlier } : {}) };
  const blocking = useAnswer('blocking', chosen === undefined || due ? undefined : { file: chosen, findings: allFindings() });
  const errors = blocking?.length ?? 0;
  // What may not be printed as it is must not look issued, on a picture of the screen either.
  const { answer: made, refused } = useAnswered('pages', edition && { ...edition, draft: choice.draft || errors > 0 });
  const house = useAnswer('house', chosen === undefined ? undefined : { file: chosen, ...(choice.form ? { form: choice.form } : {}) });
  const mayPrint = (choice.draft || blocking?.length === 0) && !fetching;
  const put = <K extends keyof typeof choice>(key: K, value: (typeof choice)[K] | undefined): void => {
    const { [key]: _, ...rest } = choice;
    printing.set({ choice: (value === undefined ? rest : { ...rest, [key]: value }) as typeof choice });
  };
  const cannot = (key: string): boolean =>
    (choice.press !== undefined && ON_PAGES.has(key)) || (choice.form === 'short' && ON_FULL.has(key));
  // Only the boxes can be asked for by the house.
  const asked = (key: string): boolean => key === 'signOff' && house?.signOff === true;
  const { running } = writing.usePick('running');
  const writeChecklist = async (): Promise<void> => {
    if (!edition) return;
    const out = await core.ask('checklist', edition).catch((error: Error) => say(error.message, true));
    if (out && (await writeOut(out.name, out.bytes)) !== undefined) setWritten(out.name);
  };
  /** The name it was written under; undefined: it was not, and that was said. */
  const writePdf = async (): Promise<string | undefined> => {
    if (!edition) return undefined;
    const [name] = await writeAll([{ number: document?.number ?? '', edition }]);
    const [outcome] = writing.get().done;
    if (outcome?.wrong) say(`${outcome.number}: ${outcome.text}`, true);
    if (name !== undefined) setWritten(name);
    return name;
  };
  if (documents.length === 0)
    return (
      <main className="print">
        <NothingYet of="print" />
      </main>
    );
  return (
    <main className="print">
      <div className="settings">
        <div className="choices-of-print">
          <label>
            {words.document}
            <select value={chosen ?? ''} onChange={(event) => printing.set({ asked: { file: event.target.value, over: file } })}>
              {documents.map((one) => (
                <option key={one.file} value={one.file}>
                  {one.number} {one.title}
                </option>
              ))}
            </select>
          </label>
          <label>
            {words.edition}
            <select value={choice.form ?? 'full'} onChange={(event) => put('form', event.target.value === 'short' ? 'short' : undefined)}>
              <option value="full">{words.editionFull}</option>
              <option value="short">{words.editionShort}</option>
            </select>
          </label>
          <label>
            {words.model}
            <select
              value={choice.model ?? ''}
              onChange={(event) => put('model', event.target.value === '' ? undefined : event.target.value)}
            >
              <option value="">{words.allModels}</option>
              {models.map((name) => (
                <option key={name}>{name}</option>
              ))}
            </select>
          </label>
          <label>
            {words.unitsEdition}
            <select
              value={choice.units ?? ''}
              onChange={(event) =>
                put('units', event.target.value === '' ? undefined : (event.target.value as keyof typeof words.unitsNames))
              }
            >
              <option value="">{asSaid(house, 'units', house ? words.unitsNames[house.units] : '')}</option>
              {(Object.keys(words.unitsNames) as (keyof typeof words.unitsNames)[]).map((name) => (
                <option key={name} value={name}>
                  {words.unitsNames[name]}
                </option>
              ))}
            </select>
          </label>
          {choice.units === undefined ? null : <p className="quiet">{words.unitsSay}</p>}
          <label>
            {words.paper}
            <select
              value={choice.paper ?? ''}
              onChange={(event) => put('paper', event.target.value === '' ? undefined : (event.target.value as (typeof PAPERS)[number]))}
            >
              <option value="">{asSaid(house, 'paper', house ? paperName(house.paper) : '')}</option>
              {PAPERS.map((paper) => (
                <option key={paper} value={paper}>
                  {paperName(paper)}
                </option>
              ))}
            </select>
          </label>
          <BindingChoice choice={choice} house={house} put={put} />
          <SheetsChoice press={choice.press} take={(press) => put('press', press)} />
          {chosen === undefined ? null : (
            <ChangedSince key={chosen} file={chosen} number={document?.number ?? ''} chosen={sinceWhen} take={setSince} />
          )}
          {TICKS.map((key) => (
            <label key={key} className="tick">
              <input
                type="checkbox"
                disabled={cannot(key)}
                checked={(choice[key] ?? asked(key)) === true && !cannot(key)}
                onChange={({ target: { checked } }) => put(key, key === 'draft' || checked !== asked(key) ? checked : undefined)}
              />{' '}
              {words.editionTicks[key]}
              {asked(key) && choice[key] === undefined && !cannot(key) ? <span className="quiet"> {words.libraryAsks}</span> : null}
            </label>
          ))}
          {choice.draft ? <p className="quiet">{words.draftSays}</p> : null}
          {made?.leftOut === undefined ? null : <p className="wrong">{made.leftOut}</p>}
          <PrintNotes notes={made?.notes ?? []} />
          <Batch choice={set} />
          {blocking === undefined ? null : blocking.length === 0 ? (
            <p>{words.notBlocked}</p>
          ) : (
            <section id="blocked" tabIndex={-1}>
              <h2>{words.blocked}</h2>
              {blocking.map((finding) => (
                <div key={`${finding.file}${finding.check}${finding.span.start}`}>
                  <button type="button" className="plain" onClick={() => goTo(finding.file, finding.span.start, finding.span.end)}>
                    <Place file={finding.file} offset={finding.span.start} />
                  </button>
                  <FindingNote finding={finding} whole={false} />
                </div>
              ))}
            </section>
          )}
        </div>
        <WriteFoot
          made={made}
          refused={refused}
          errors={choice.draft ? 0 : errors}
          mayPrint={mayPrint}
          running={running}
          written={written}
          pdf={() => void writePdf()}
          toPrinter={() => void writePdf().then((name) => (name === undefined ? undefined : showOut(name, 'print')))}
          checklist={document?.kind === 'procedure' ? () => void writeChecklist() : undefined}
        />
      </div>
      {made ? <PagesPane made={made} file={chosen ?? ''} /> : <div className="pages-side" />}
    </main>
  );
}
