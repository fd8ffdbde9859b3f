/** Remarks pinned to steps and lines: said, answered, settled, opened again. They are kept in the library as text beside the document. */
import { type ReactNode, useRef, useState } from 'react';
import type { Pinned, Remark } from '../../procedures-schema/review/index.ts';
import { DocumentChoice, useDocument } from '../parts/document-choice.tsx';
import { PersonFields } from '../parts/person-fields.tsx';
import { person, putRecord, today, useReview } from '../state/record.ts';
import { goTo } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { ReviewOf } from '../worker/queries/queries.ts';
import { RecordFaults } from './record-faults.tsx';

export function Remarks(): ReactNode {
  const file = useDocument();
  const review = useReview(file);
  if (!review || file === undefined) return <p className="quiet">{words.checking}</p>;
  const open = review.pins.filter(({ remark }) => !remark.settled);
  const settled = review.pins.filter(({ remark }) => remark.settled);
  return (
    <div className="one">
      <p className="row">
        <DocumentChoice guides />
        <PersonFields />
      </p>
      <RecordFaults review={review} />
      {review.pins.length === 0 ? <p>{words.noRemarks}</p> : null}
      <div className="remarks">
        {[...open, ...settled].map((pin) => (
          <One key={pin.index} pin={pin} review={review} file={file} />
        ))}
      </div>
    </div>
  );
}

interface Props {
  readonly pin: Pinned;
  readonly review: ReviewOf;
  readonly file: string;
}

function One({ pin, review, file }: Props): ReactNode {
  const { remark, index, how, label, span } = pin;
  const { initials } = person.use();
  const [answer, setAnswer] = useState('');
  const own = useRef<HTMLElement>(null);
  const put = (title: string, next: (own: Remark) => Remark): void => {
    putRecord(title, review, (record) => ({ ...record, remarks: record.remarks.map((own, at) => (at === index ? next(own) : own)) }));
  };
  return (
    <article ref={own} tabIndex={-1} className={remark.settled ? 'remark remark-settled' : 'remark'}>
      <header>
        {span ? (
          <button type="button" className="plain" onClick={() => goTo(file, span.start, span.end)}>
            <b>{label === '' ? words.foreword : label}</b>
          </button>
        ) : (
          <b className="wrong">{words.pinLost}</b>
        )}{' '}
        <q>{remark.words}</q> {how === 'reworded' ? <i className="quiet">{words.pinReworded}</i> : null}
      </header>
      <Line by={remark.by} on={remark.on} says={remark.says} />
      {remark.answers.map((own) => (
        <Line key={`${own.by}${own.on}${own.says}`} {...own} />
      ))}
      {remark.settled ? (
        <p className="row quiet">
          <span>
            {words.settledBy} {remark.settled.by}, {remark.settled.on}
          </span>
          <button
            type="button"
            disabled={initials === ''}
            onClick={() => {
              const { by, on } = remark.settled ?? { by: '', on: '' };
              // Who had settled it is not forgotten: it stands among the answers.
              put(words.openAgain, ({ settled: _, ...own }) => ({
                ...own,
                answers: [...own.answers, { by: initials, on: today(), says: words.openedAgain(by, on) }],
              }));
              own.current?.focus();
            }}
          >
            {words.openAgain}
          </button>
        </p>
      ) : (
        <form
          className="row"
          onSubmit={(event) => {
            event.preventDefault();
            put(words.answer, (own) => ({ ...own, answers: [...own.answers, { by: initials, on: today(), says: answer }] }));
            setAnswer('');
          }}
        >
          <input aria-label={words.answer} placeholder={words.answer} value={answer} onChange={(event) => setAnswer(event.target.value)} />
          <button type="submit" disabled={answer.trim() === '' || initials === ''}>
            {words.answer}
          </button>
          <button
            type="button"
            disabled={initials === ''}
            onClick={() => {
              put(words.settleIt, (remarked) => ({ ...remarked, settled: { by: initials, on: today() } }));
              // The button is gone then; the keys go on from the remark.
              own.current?.focus();
            }}
          >
            {words.settleIt}
          </button>
        </form>
      )}
    </article>
  );
}

function Line({ by, on, says }: { readonly by: string; readonly on: string; readonly says: string }): ReactNode {
  return (
    <p>
      <b>{by}</b> <span className="quiet">{on}</span> {says}
    </p>
  );
}
