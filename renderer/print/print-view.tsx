/** Print: choose a document and its edition, see the real pages, see what stands in the way, write the files. */
import { type ReactNode, useState } from 'react';
import { allFindings, FindingNote } from '../parts/findings.tsx';
import { PageCanvas } from '../parts/page-canvas.tsx';
import { Place } from '../parts/place.tsx';
import { useAnswer } from '../state/answer.ts';
import { printOut, writeOut } from '../state/saving.ts';
import { goTo, say, shown } from '../state/shown.ts';
import { core } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import type { Edition } from '../worker/queries/queries.ts';
import { Batch } from './batch.tsx';
import { ChangedSince } from './changed-since.tsx';
import { SheetCanvas } from './sheet-canvas.tsx';
import { SheetsChoice } from './sheets-choice.tsx';

/** What a sheet that is folded or cut cannot carry. */
const ON_PAGES: ReadonlySet<string> = new Set(['fillable', 'attach']);
const TICKS = ['large', 'fillable', 'attach', 'obsolete', 'draft'] as const;

export function PrintView(): ReactNode {
  const { overview, file, due } = shown.usePick('overview', 'file', 'findings', 'between', 'due');
  const documents = [...(overview?.documents ?? [])].sort((a, b) => (a.kind === b.kind ? 0 : a.kind === 'guide' ? -1 : 1));
  const [asked, setAsked] = useState<string>();
  const [choice, setChoice] = useState<Omit<Edition, 'file'>>({ draft: false });
  const [earlier, setEarlier] = useState<Edition['earlier']>();
  const chosen = asked ?? documents.find((one) => one.file === file)?.file ?? documents[0]?.file;
  const edition: Edition | undefined = chosen === undefined ? undefined : { file: chosen, ...choice, ...(earlier ? { earlier } : {}) };
  const blocking = useAnswer('blocking', chosen === undefined || due ? undefined : { file: chosen, findings: allFindings() });
  const errors = blocking?.length ?? 0;
  // What may not be printed as it is must not look issued, on a picture of the screen either.
  const made = useAnswer('pages', edition && { ...edition, draft: choice.draft || errors > 0 });
  const document = documents.find((one) => one.file === chosen);
  const mayPrint = choice.draft || blocking?.length === 0;
  const set = <K extends keyof typeof choice>(key: K, value: (typeof choice)[K] | undefined): void => {
    const { [key]: _, ...rest } = choice;
    setChoice((value === undefined ? rest : { ...rest, [key]: value }) as typeof choice);
  };
  /** The name it was written under; undefined: it was not, and that was said. */
  const write = async (query: 'pdf' | 'checklist'): Promise<string | undefined> => {
    if (!edition) return undefined;
    const out = await core.ask(query, edition).catch((error: Error) => say(error.message, true));
    return out && (await writeOut(out.name, out.bytes)) !== undefined ? out.name : undefined;
  };
  return (
    <main className="print">
      <div className="settings">
        <label>
          {words.document}
          <select
            value={chosen ?? ''}
            onChange={(event) => {
              setAsked(event.target.value);
              setEarlier(undefined);
            }}
          >
            {documents.map((one) => (
              <option key={one.file} value={one.file}>
                {one.number} {one.title}
              </option>
            ))}
          </select>
        </label>
        <label>
          {words.edition}
          <select value={choice.form ?? 'full'} onChange={(event) => set('form', event.target.value === 'short' ? 'short' : undefined)}>
            <option value="full">{words.editionFull}</option>
            <option value="short">{words.editionShort}</option>
          </select>
        </label>
        <label>
          {words.model}
          <select value={choice.model ?? ''} onChange={(event) => set('model', event.target.value === '' ? undefined : event.target.value)}>
            <option value="">{words.allModels}</option>
            {(document?.kind === 'procedure' ? document.models : (overview?.models ?? [])).map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        </label>
        <label>
          {words.unitsEdition}
          <select
            value={choice.units ?? ''}
            onChange={(event) =>
              set('units', event.target.value === '' ? undefined : (event.target.value as keyof typeof words.unitsNames))
            }
          >
            <option value="">{words.unitsAsSet}</option>
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
            onChange={(event) => set('paper', event.target.value === '' ? undefined : (event.target.value as 'a4'))}
          >
            <option value="">{words.paperAsSet}</option>
            <option value="a4">A4</option>
            <option value="letter">Letter</option>
            <option value="a5">A5</option>
          </select>
        </label>
        <SheetsChoice press={choice.press} take={(press) => set('press', press)} />
        {chosen === undefined ? null : <ChangedSince key={chosen} file={chosen} take={setEarlier} />}
        {TICKS.map((key) => (
          <label key={key} className="tick">
            <input
              type="checkbox"
              disabled={choice.press !== undefined && ON_PAGES.has(key)}
              checked={choice[key] === true && !(choice.press !== undefined && ON_PAGES.has(key))}
              onChange={(event) => set(key, key === 'draft' ? event.target.checked : event.target.checked || undefined)}
            />{' '}
            {words.editionTicks[key]}
          </label>
        ))}
        {choice.draft ? <p className="quiet">{words.draftSays}</p> : null}
        {errors > 0 && !choice.draft ? (
          <p className="wrong">
            <button type="button" className="plain" onClick={() => window.document.getElementById('blocked')?.scrollIntoView()}>
              {words.blockedBy(errors)}
            </button>
          </p>
        ) : null}
        <p className="row">
          <button type="button" className="main" disabled={!mayPrint || !made} onClick={() => void write('pdf')}>
            {words.writePdf}
          </button>{' '}
          <button
            type="button"
            disabled={!mayPrint || !made}
            onClick={() => void write('pdf').then((name) => (name === undefined ? undefined : printOut(name)))}
          >
            {words.toPrinter}
          </button>{' '}
          {document?.kind === 'procedure' ? (
            <button type="button" disabled={!mayPrint} onClick={() => void write('checklist')}>
              {words.writeChecklist}
            </button>
          ) : null}
        </p>
        {made ? (
          <p className="quiet">
            {words.pagesCount(made.pages.length)}
            {made.sides ? ` ${words.sidesMade(made.sides.length)}` : ''}
          </p>
        ) : (
          <p className="quiet">{words.checking}</p>
        )}
        {[...new Set(made?.notes)].map((note) => (
          <p key={note} className="wrong">
            {note}
          </p>
        ))}
        <Batch choice={choice} />
        {blocking === undefined ? null : blocking.length === 0 ? (
          <p>{words.notBlocked}</p>
        ) : (
          <section id="blocked">
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
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: the pages are scrolled from the keyboard too */}
      <section className="pages" tabIndex={0} aria-label={words.print}>
        {made?.sides
          ? made.sides.map((side, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a side's name is its number
              <SheetCanvas key={index} side={side} pages={made.pages} width={700} label={words.side(index + 1, made.sides?.length ?? 0)} />
            ))
          : null}
        {(made?.sides ? [] : (made?.pages ?? [])).map((page, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a page's name is its number
          <PageCanvas key={index} page={page} width={380} label={words.page(index + 1, made?.pages.length ?? 0)} />
        ))}
      </section>
    </main>
  );
}
