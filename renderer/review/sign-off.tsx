/**
 * Signing a text: what the signer must have seen (verdicts, findings, readings said outright, readings nobody accepted, open remarks), and
 * the signatures there are, each bound to what it was given for and with the verdict of then.
 */
import { type ReactNode, useEffect, useRef } from 'react';
import { type Signature, signatureHolds } from '../../procedures-schema/review/index.ts';
import { DocumentChoice, useDocument } from '../parts/document-choice.tsx';
import { findingsOf } from '../parts/findings.tsx';
import { PersonFields } from '../parts/person-fields.tsx';
import { nameOf } from '../parts/place.tsx';
import { person, putRecord, today, useReview } from '../state/record.ts';
import { goTo, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { Bound, ReviewOf } from '../worker/queries/queries.ts';
import { RecordFaults } from './record-faults.tsx';

export function SignOff(): ReactNode {
  const file = useDocument();
  const review = useReview(file, true);
  const { unsaved } = shown.usePick('findings', 'between', 'unsaved');
  const { initials, as } = person.use();
  if (!review || file === undefined) return <p className="quiet">{words.checking}</p>;
  const findings = [file, ...review.bound.map((one) => one.file)].flatMap(findingsOf);
  const count = (severity: string): number => findings.filter((one) => one.severity === severity).length;
  const open = review.pins.filter(({ remark }) => !remark.settled).length;
  // A second one of the same person for the same words says nothing new, and would count as one more.
  const signed = review.record.signatures.some(
    (one) => one.by === initials && one.as === as && one.hash === review.hash && one.verdict === review.verdict,
  );
  const outright = review.outright.map(
    ({ fullLabel, sentence, reads, because, by }) => `${fullLabel}: ${sentence} = ${reads} (${because}, ${by})`,
  );
  return (
    <div className="one">
      <p className="row">
        <DocumentChoice guides />
        <PersonFields withPart />
        {initials === '' ? (
          <span className="quiet">{words.wantsInitials}</span>
        ) : as.trim() === '' ? (
          <span className="quiet">{words.wantsPart}</span>
        ) : null}
      </p>
      <RecordFaults review={review} />
      <div className="signing">
        <section>
          <h2>{words.toSee}</h2>
          <ul className="to-see">
            <li>
              {words.verdict}: <Verdict verdict={review.verdict} />
            </li>
            {review.bound.length === 0 ? null : (
              <li>
                {words.boundIn(review.bound.length)}
                <ul>
                  {review.bound.map((one) => (
                    <BoundIn key={one.file} one={one} />
                  ))}
                </ul>
              </li>
            )}
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
            {review.bound.length > 0 ? null : (
              <li>
                {words.toAccept(review.toAccept.length)}
                <ToAccept review={review} initials={initials} />
              </li>
            )}
          </ul>
        </section>
        <section>
          <form
            className="row sign"
            onSubmit={(event) => {
              event.preventDefault();
              const { revision, hash, verdict } = review;
              if (verdict === undefined || signed) return;
              const signature = { by: initials, on: today(), as, revision, hash, outright, verdict };
              putRecord(words.sign, review, (record) => ({ ...record, signatures: [...record.signatures, signature] }));
            }}
          >
            <button
              type="submit"
              className="main"
              disabled={
                signed ||
                initials.trim() === '' ||
                as.trim() === '' ||
                review.faults.length > 0 ||
                review.hash === '' ||
                review.verdict === undefined
              }
            >
              {words.sign}
            </button>
          </form>
          {review.hash !== '' && review.verdict === undefined ? <p className="wrong">▨ {words.signWantsVerdict}</p> : null}
          {signed ? <p className="quiet">{words.signedAlready(initials)}</p> : null}
          {[file, ...review.bound.map((one) => one.file)].some((own) => unsaved.has(own)) ? (
            <p className="wrong">▨ {words.signsUnsaved}</p>
          ) : null}
          {count('error') > 0 ? <p className="wrong">▨ {words.signsWrong(count('error'))}</p> : null}
          <p className="quiet">{words.signMeans}</p>
          <h2>{words.signatures}</h2>
          {review.record.signatures.length === 0 ? <p>{words.nobodySigned}</p> : null}
          <ul className="signatures">
            {review.record.signatures.map((one) => (
              <Signed key={`${one.by}${one.on}${one.as}${one.hash}`} one={one} now={review} />
            ))}
          </ul>
        </section>
      </div>
    </div>
  );
}

/** A document of a guide, with what its own sheet would say. */
function BoundIn({ one }: { readonly one: Bound }): ReactNode {
  const { file, verdict, openRemarks, toAccept, signed } = one;
  return (
    <li>
      <button type="button" className="plain" onClick={() => goTo(file, 0, 0)}>
        {nameOf(file)}
      </button>{' '}
      <Verdict verdict={verdict} />
      <p className="quiet">
        {[
          signed === undefined ? words.checking : words.signedBy(signed),
          ...(openRemarks > 0 ? [words.openRemarks(openRemarks)] : []),
          ...(toAccept > 0 ? [words.toAccept(toAccept)] : []),
        ].join('; ')}
      </p>
    </li>
  );
}

function Verdict({ verdict }: Pick<ReviewOf, 'verdict'>): ReactNode {
  if (verdict === undefined) return <b>–</b>;
  return <b className={`verdict verdict-${verdict.replace(' ', '-')}`}>{words[verdict]}</b>;
}

/** `now`: what would be signed; its hash is empty while that is not known. */
function Signed({ one, now }: { readonly one: Signature; readonly now: Pick<ReviewOf, 'hash' | 'verdict'> }): ReactNode {
  const { verdict } = one;
  const { hash } = now;
  const holds = signatureHolds(one, hash, now.verdict);
  return (
    <li className={holds || hash === '' ? '' : 'stale'}>
      <b>{one.by}</b> {one.as}, {one.on}, {words.revision} {one.revision}{' '}
      {verdict === undefined || verdict === '' ? null : <>({words.signedWith(saidVerdict(verdict))}) </>}
      {hash === '' ? (
        <span className="quiet">{words.checking}</span>
      ) : holds ? (
        <span>□ {words.signedThis}</span>
      ) : (
        <span className="wrong">▨ {whyNot(one, hash)}</span>
      )}
      <span className="quiet"> {one.hash.slice(0, 12)}</span>
    </li>
  );
}

/** Why a signature does not hold. */
function whyNot({ verdict, hash }: Signature, now: string): string {
  if (hash !== now) return verdict === undefined ? words.signedWords : words.signedStale;
  return verdict === undefined || verdict === '' ? words.signedNoVerdict : words.signedOtherVerdict;
}

/** The file may be edited by hand; what it says is shown as it stands where it is no verdict of ours. */
const saidVerdict = (verdict: string): string =>
  verdict === 'proved' || verdict === 'refuted' || verdict === 'not proved' ? words[verdict] : verdict;

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
      <ul ref={list} className="to-accept">
        {review.toAccept.map(({ key, label, words: read }, index) => (
          <li key={key}>
            <span>
              <b>{label}</b> {read}
            </span>
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
