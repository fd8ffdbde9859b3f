/** One line of the library's list, and the caption below the list that says in words what stands as marks beside the line that is pointed at. */
import { memo, type ReactNode } from 'react';
import { tabbed } from '../parts/entry-keys.ts';
import { Mark, stateSaid } from '../parts/state-marks.tsx';
import { newStore } from '../state/store.ts';
import { show } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import type { DocumentLine } from '../worker/queries/queries.ts';

export interface Counted {
  readonly errors: number;
  readonly warnings: number;
  readonly unsaved: boolean;
}

interface Props extends Counted {
  readonly file: string;
  readonly number: string;
  readonly title: string;
  /** Undefined: a register, which nobody proves or signs. */
  readonly line: DocumentLine | undefined;
  readonly current: boolean;
  /** Tab comes to this one. */
  readonly tabbed: boolean;
}

export const LibraryEntry = memo(function LibraryEntry({ file, number, title, line, current, tabbed: own, ...counted }: Props): ReactNode {
  return (
    <li>
      <button
        type="button"
        className="entry"
        title={file}
        data-file={file}
        aria-current={current}
        tabIndex={tabbed(own)}
        onClick={() => show(file)}
      >
        {number === '' ? null : <span className="entry-number">{number}</span>}
        {/* Else number and title are heard as one word. */}
        {number === '' ? null : <span className="said-only">{'\u00a0'}</span>}
        {line ? <Marks line={line} errors={counted.errors} /> : null}
        <span className="entry-title">{title}</span>
        {/* Heard after the title, which says what the line is; seen before it, where marks stand in one column. */}
        {line ? <span className="said-only">{`(${saidInWords(line, counted.errors)})`}</span> : null}
        <span className="entry-state">
          <CountedSaid {...counted} />
        </span>
      </button>
    </li>
  );
});

const saidInWords = (line: DocumentLine, errors: number): string =>
  stateSaid(line, errors)
    .map((one) => one.words)
    .join(', ');

function Marks({ line, errors }: { readonly line: DocumentLine; readonly errors: number }): ReactNode {
  const said = stateSaid(line, errors);
  return (
    <span className="entry-marks">
      {said.map(({ mark }) => (mark === undefined ? null : <Mark key={mark} name={mark} />))}
      {line.openRemarks ? <span aria-hidden="true">{line.openRemarks}</span> : null}
    </span>
  );
}

function CountedSaid({ errors, warnings, unsaved }: Counted): ReactNode {
  return (
    <>
      {unsaved ? `${words.unsaved} ` : null}
      {errors > 0 ? <span className="state-error">■ {words.errors(errors)} </span> : null}
      {warnings > 0 ? <span className="state-warning">▲ {words.warnings(warnings)}</span> : null}
    </>
  );
}

/** The file of the line that the mouse or the focus is on. */
export const pointed = newStore<{ readonly file: string | undefined }>({ file: undefined });

export function pointAt(target: EventTarget): void {
  const file = target instanceof Element ? (target.closest('[data-file]')?.getAttribute('data-file') ?? undefined) : undefined;
  if (file !== pointed.get().file) pointed.set({ file });
}

/** Heard already with the line itself by whoever hears the page. */
export function Caption({ line, counted }: { readonly line: DocumentLine | undefined; readonly counted: Counted }): ReactNode {
  return (
    <div className="library-caption" aria-hidden="true">
      {line === undefined ? null : (
        <>
          <b>{line.number}</b>
          {stateSaid(line, counted.errors).map(({ mark, words: said }) => (
            <span key={said}>
              {mark === undefined ? null : <Mark name={mark} />} {said}
            </span>
          ))}
          <span>
            <CountedSaid {...counted} />
          </span>
        </>
      )}
    </div>
  );
}
