/** Under the choices of Print, always in sight: what stands in the way, the buttons that write, and what they wrote. Writing is for the view. */
import type { ReactNode } from 'react';
import { words } from '../words/words.ts';
import type { PagesShown } from '../worker/queries/queries.ts';
import { WrittenFile } from './written-file.tsx';

interface Props {
  readonly made: PagesShown | undefined;
  /** Why no pages could be made. */
  readonly refused: string | undefined;
  /** That block this edition; none where a draft is asked for. */
  readonly errors: number;
  readonly mayPrint: boolean;
  readonly running: boolean;
  /** Name of the file that was written last. */
  readonly written: string | undefined;
  readonly pdf: () => void;
  readonly toPrinter: () => void;
  /** Undefined: this document has none. */
  readonly checklist: (() => void) | undefined;
}

/** To a part of the choices above, which may be out of sight. */
const showPart = (id: string): void => document.getElementById(id)?.focus();

export function WriteFoot({ made, refused, errors, mayPrint, running, written, pdf, toPrinter, checklist }: Props): ReactNode {
  const cannot = !mayPrint || !made || running;
  return (
    <div className="write-foot">
      {errors > 0 ? (
        <p className="wrong">
          <button type="button" className="plain wrong" onClick={() => showPart('blocked')}>
            <span aria-hidden="true">■ </span>
            {words.blockedBy(errors)}
          </button>
        </p>
      ) : null}
      {made ? (
        <p className="quiet">
          {words.pagesCount(made.pages.length)}
          {made.sides ? ` ${words.sidesMade(made.sides.length)}` : ''}
        </p>
      ) : refused === undefined ? (
        <p className="quiet">{words.checking}</p>
      ) : (
        <p className="wrong">{refused}</p>
      )}
      <p className="row">
        <button type="button" className="main" disabled={cannot} onClick={pdf}>
          {words.writePdf}
        </button>{' '}
        <button type="button" disabled={cannot} onClick={toPrinter}>
          {words.toPrinter}
        </button>{' '}
        {checklist ? (
          <button type="button" disabled={!mayPrint} onClick={checklist}>
            {words.writeChecklist}
          </button>
        ) : null}
      </p>
      {made && made.notes.length > 0 ? (
        <p>
          <button type="button" className="plain wrong" onClick={() => showPart('print-notes')}>
            {words.printNotesCount(made.notes.length)}
          </button>
        </p>
      ) : null}
      {written === undefined ? null : <WrittenFile name={written} />}
    </div>
  );
}
