/** Print: choose a document and its edition, see the real pages, see what stands in the way, write the files. */
import { type ReactNode, useState } from 'react';
import { allFindings, FindingNote } from '../parts/findings.tsx';
import { PageCanvas } from '../parts/page-canvas.tsx';
import { useAnswer } from '../state/answer.ts';
import { core, goTo, say, shown, writeOut } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import type { Edition } from '../worker/queries/queries.ts';
import { Batch } from './batch.tsx';

export function PrintView(): ReactNode {
  const { overview, file } = shown.usePick('overview', 'file', 'findings', 'between');
  const documents = [...(overview?.documents ?? [])].sort((a, b) => (a.kind === b.kind ? 0 : a.kind === 'guide' ? -1 : 1));
  const [asked, setAsked] = useState<string>();
  const [model, setModel] = useState('');
  const [paper, setPaper] = useState('');
  const [draft, setDraft] = useState(false);
  const chosen = asked ?? documents.find((one) => one.file === file)?.file ?? documents[0]?.file;
  const edition: Edition | undefined =
    chosen === undefined
      ? undefined
      : { file: chosen, draft, ...(model === '' ? {} : { model }), ...(paper === '' ? {} : { paper: paper as 'a4' }) };
  const made = useAnswer('pages', edition);
  const blocking = useAnswer('blocking', chosen === undefined ? undefined : { file: chosen, findings: allFindings() });
  const document = documents.find((one) => one.file === chosen);
  const mayPrint = draft || blocking?.length === 0;
  const write = async (query: 'pdf' | 'checklist'): Promise<void> => {
    if (!edition) return;
    const file = await core.ask(query, edition).catch((error: Error) => say(error.message, true));
    if (file) await writeOut(file.name, file.bytes);
  };
  return (
    <main className="print">
      <div className="settings">
        <label>
          {words.document}
          <select value={chosen ?? ''} onChange={(event) => setAsked(event.target.value)}>
            {documents.map((one) => (
              <option key={one.file} value={one.file}>
                {one.number} {one.title}
              </option>
            ))}
          </select>
        </label>
        <label>
          {words.model}
          <select value={model} onChange={(event) => setModel(event.target.value)}>
            <option value="">{words.allModels}</option>
            {(document?.kind === 'procedure' ? document.models : (overview?.models ?? [])).map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </label>
        <label>
          {words.paper}
          <select value={paper} onChange={(event) => setPaper(event.target.value)}>
            <option value="">{words.paperAsSet}</option>
            <option value="a4">A4</option>
            <option value="letter">Letter</option>
          </select>
        </label>
        <label className="tick">
          <input type="checkbox" checked={draft} onChange={(event) => setDraft(event.target.checked)} /> {words.draft}
        </label>
        <p className="quiet">{words.draftSays}</p>
        <p>
          <button type="button" className="main" disabled={!mayPrint || !made} onClick={() => void write('pdf')}>
            {words.writePdf}
          </button>{' '}
          {document?.kind === 'procedure' ? (
            <button type="button" disabled={!mayPrint} onClick={() => void write('checklist')}>
              {words.writeChecklist}
            </button>
          ) : null}
        </p>
        {made ? (
          <p className="quiet">{words.pagesMade(made.pages.length, Math.round(made.milliseconds))}</p>
        ) : (
          <p className="quiet">{words.checking}</p>
        )}
        {made?.notes.map((note) => (
          <p key={note} className="wrong">
            {note}
          </p>
        ))}
        <Batch choice={{ draft, ...(model === '' ? {} : { model }), ...(paper === '' ? {} : { paper: paper as 'a4' }) }} />
        {blocking === undefined ? null : blocking.length === 0 ? (
          <p>{words.notBlocked}</p>
        ) : (
          <section>
            <h2>{words.blocked}</h2>
            {blocking.map((finding) => (
              <div key={`${finding.file}${finding.check}${finding.span.start}`}>
                <button type="button" className="plain" onClick={() => goTo(finding.file, finding.span.start, finding.span.end)}>
                  {finding.file}:{finding.range.start.line}
                </button>
                <FindingNote finding={finding} whole={false} />
              </div>
            ))}
          </section>
        )}
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the pages are scrolled from the keyboard too */}
      <section className="pages" tabIndex={0} aria-label={words.print}>
        {made?.pages.map((page, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a page's name is its number
          <PageCanvas key={index} page={page} width={380} label={words.page(index + 1, made.pages.length)} />
        ))}
      </section>
    </main>
  );
}
