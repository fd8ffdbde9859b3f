/** What of an edition could not be printed as asked, each with the place in the text that it comes from. */
import type { ReactNode } from 'react';
import type { PrintNote } from '../../publishing/index.ts';
import { Place } from '../parts/place.tsx';
import { goTo } from '../state/shown.ts';
import { words } from '../words/words.ts';

export function PrintNotes({ notes }: { readonly notes: readonly PrintNote[] }): ReactNode {
  if (notes.length === 0) return null;
  return (
    <section id="print-notes" className="print-notes" tabIndex={-1}>
      <h2>{words.printNotes}</h2>
      {notes.map(({ kind, message, why, expected, file, span }) => (
        <div key={`${kind} ${file} ${span?.start} ${message}`} className="note note-warning">
          {file === undefined || span === undefined ? null : (
            <button type="button" className="plain" onClick={() => goTo(file, span.start, span.end)}>
              <Place file={file} offset={span.start} />
            </button>
          )}
          <p className="note-head">{message}</p>
          <p>
            <span className="note-word">{words.right}</span> {expected}
          </p>
          <p>
            <span className="note-word">{words.why}</span> {why}
          </p>
        </div>
      ))}
    </section>
  );
}
