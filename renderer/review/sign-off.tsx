/**
 * Signing a text: what the signer must have seen (verdicts, findings, readings said outright, readings nobody accepted, open remarks), and
 * the signatures there are, each bound to the text it was given for.
 */
import { type ReactNode, useEffect, useRef } from 'react';
import { DocumentChoice, useProcedure } from '../parts/document-choice.tsx';
import { findingsOf } from '../parts/findings.tsx';
import { PersonFields } from '../parts/person-fields.tsx';
import { person, putRecord, today, useReview } from '../state/record.ts';
import { goTo, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { ReviewOf } from '../worker/queries/queries.ts';
import { RecordFaults } from './record-faults.tsx';

export function SignOff(): ReactNode {
  const file = useProcedure();
  const review = useReview(file, true);
  const { overview } = shown.usePick('overview', 'findings', 'between');
  const { initials, as } = person.use();
  if (!review || file === undefined) return <p className="quiet">{words.checking}</p>;
  const findings = findingsOf(file);
  const count = (severity: string): number => findings.filter((one) => one.severity === severity).length;
  const document = overview?.documents.find((one) => one.file === file);
  const open = review.pins.filter(({ remark }) => !remark.settled).length;
  const outright = review.outright.map(
    ({ fullLabel, sentence, reads, because, by }) => `${fullLabel}: ${sentence} = ${reads} (${because}, ${by})`,
  );
  return (
    <div className="one">
      <p className="row">
        <DocumentChoice />
        <PersonFields withPart />
        {initials === '' ? <span className="quiet">{words.wantsInitials}</span> : null}
      </p>
      <RecordFaults review={review} />
      <div className="signing">
        <section>
          <h2>{words.toSee}</h2>
          <ul className="to-see">
            <li>
              {words.verdict}:{' '}
              <b className={document?.verdict === undefined ? '' : `verdict verdict-${document.verdict.replace(' ', '-')}`}>
                {document?.verdict === undefined ? '–' : words[document.verdict]}
              </b>
            </li>
            <li>
              {words.errors(count('error'))}, {words.warnings(count('warning'))}, {words.advice(count('advice'))}
            </li>
            <li>{words.openRemarks(open)}</li>
            <li>
              {words.saidOutright(review.outright.length)}
              <ul>
                {review.outright.map((one) => (
                  <li key={one.key}>
                    <button type="button" className="plain" onClick={() => goTo(one.file, one.span.start, one.span.end)}>
                      {one.fullLabel}: {one.sentence}
                    </button>{' '}
                    = {one.reads}. {one.because} ({one.by}) {one.wanting.map((text) => `■ ${text}`).join(' ')}
                  </li>
                ))}
              </ul>
            </li>
            <li>
              {words.toAccept(review.toAccept.length)}
              <ToAccept review={review} initials={initials} />
            </li>
          </ul>
        </section>
        <section>
          <form
            className="row sign"
            onSubmit={(event) => {
              event.preventDefault();
              const signature = { by: initials, on: today(), as, revision: review.revision, hash: review.hash, outright };
              putRecord(words.sign, review, (record) => ({ ...record, signatures: [...record.signatures, signature] }));
            }}
          >
            <button type="submit" className="main" disabled={initials.trim() === '' || as.trim() === '' || review.faults.length > 0}>
              {words.sign}
            </button>
          </form>
          {count('error') > 0 ? <p className="wrong">▨ {words.signsWrong(count('error'))}</p> : null}
          <p className="quiet">{words.signMeans}</p>
          <h2>{words.signatures}</h2>
          {review.record.signatures.length === 0 ? <p>{words.nobodySigned}</p> : null}
          <ul className="signatures">
            {review.record.signatures.map((one) => (
              <li key={`${one.by}${one.on}${one.as}${one.hash}`} className={one.hash === review.hash ? '' : 'stale'}>
                <b>{one.by}</b> {one.as}, {one.on}, {words.revision} {one.revision}{' '}
                {one.hash === review.hash ? <span>□ {words.signedThis}</span> : <span className="wrong">▨ {words.signedStale}</span>}
                <span className="quiet"> {one.hash.slice(0, 12)}</span>
              </li>
            ))}
          </ul>
        </section>
      </div>
    </div>
  );
}

/** Readings that nobody accepted, each to be accepted by itself; from the keyboard the next one is at hand when one is gone. */
function ToAccept({ review, initials }: { readonly review: ReviewOf; readonly initials: string }): ReactNode {
  const list = useRef<HTMLUListElement>(null);
  const next = useRef<number>(undefined);
  const count = review.toAccept.length;
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the list becoming shorter that takes the focus away
  useEffect(() => {
    if (next.current === undefined) return;
    const buttons = list.current?.querySelectorAll('button') ?? [];
    buttons[Math.min(next.current, buttons.length - 1)]?.focus();
    next.current = undefined;
  }, [count]);
  if (count === 0) return null;
  return (
    <details>
      <summary>{words.showThem}</summary>
      <ul ref={list}>
        {review.toAccept.map(({ key, label, words: read }, index) => (
          <li key={key}>
            <b>{label}</b> {read}{' '}
            <button
              type="button"
              disabled={initials === ''}
              onClick={() => {
                const put = putRecord(words.accept, review, (record) => ({
                  ...record,
                  accepted: [...record.accepted, { key, by: initials, words: read }],
                }));
                if (put) next.current = index;
              }}
            >
              {words.accept}
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}
