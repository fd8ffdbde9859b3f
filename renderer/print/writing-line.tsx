/** One line over the foot while documents are written, in whatever view: how far it is and a way to stop; then what came of each, until it is dismissed. */
import type { ReactNode } from 'react';
import { today } from '../state/record.ts';
import { writeOut } from '../state/saving.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { dismiss, type Outcome, stopWriting, writing } from './writing.ts';

/** Anew for each day: a report of today is not written over one of last week. */
const reportName = (): string => `report-${today()}.txt`;

/** As it stands on the screen, one document a line. */
const reportText = (done: readonly Outcome[]): string =>
  [`${shown.get().name}, ${today()}`, '', ...done.map(({ number, text }) => `${number}: ${text}`), ''].join('\n');

export function WritingLine(): ReactNode {
  const { running, wanted, done, read, page } = writing.use();
  // Of a single document everything was said by the line at the foot.
  const reported = wanted.length > 1 && done.length > 0;
  if (!running && !reported) return null;
  const wrong = done.filter((one) => one.wrong).length;
  const reading = read.done < read.of;
  const part = page === undefined ? 0 : page.at / page.of;
  return (
    <section className="writing-line" aria-label={words.writingThem}>
      <p className="row">
        {running ? (
          <>
            <span>
              {reading
                ? words.readFirst(read.done, read.of)
                : words.writingOf(wanted[done.length]?.number ?? '', done.length + 1, wanted.length, page)}
            </span>
            <progress
              aria-label={words.writingThem}
              max={reading ? read.of : wanted.length}
              // While its pages are laid out it is not known how far a single document is.
              {...(!reading && wanted.length === 1 && page === undefined ? {} : { value: reading ? read.done : done.length + part })}
            />
            <button type="button" onClick={stopWriting}>
              {words.stop}
            </button>
          </>
        ) : (
          <>
            <span>{words.writtenOf(done.length - wrong, done.length)}</span>
            {wrong > 0 ? <span className="wrong">▲ {words.writtenNot(wrong)}</span> : null}
            <button type="button" onClick={() => void writeOut(reportName(), new TextEncoder().encode(reportText(done)))}>
              {words.writeReport}
            </button>
            <button type="button" onClick={dismiss}>
              {words.dismiss}
            </button>
          </>
        )}
      </p>
      {reported ? (
        <details>
          <summary>{words.whatCame}</summary>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a long report is scrolled from the keyboard too */}
          <ul aria-live="polite" tabIndex={0} aria-label={words.whatCame}>
            {done.map(({ number, text, wrong: own }) => (
              <li key={number} className={own ? 'wrong' : ''}>
                {number}: {text}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
}
