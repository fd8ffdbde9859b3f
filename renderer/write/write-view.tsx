/** Write: the library, the text with what stands beside it, and the page it is printed on. */
import { type ReactNode, useCallback } from 'react';
import type { Finding } from '../../procedures-schema/index.ts';
import { type LinePlaces, TextSheet } from '../editor/text-sheet.tsx';
import { findingsOf } from '../parts/findings.tsx';
import { BandLegend } from '../parts/hatches.tsx';
import { NothingYet } from '../parts/nothing-yet.tsx';
import { nameOf, registerName } from '../parts/place.tsx';
import { useNarrow } from '../parts/room.ts';
import { verdictSaid } from '../parts/state-marks.tsx';
import { useAnswer } from '../state/answer.ts';
import { openPanel } from '../state/panel.ts';
import { useReview } from '../state/record.ts';
import { goTo, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { FindStrip } from './find-strip.tsx';
import { LeftMargin } from './left-margin.tsx';
import { LibraryList } from './library-list.tsx';
import { PageProof } from './page-proof.tsx';
import { RightMargin } from './right-margin.tsx';
import { Tour } from './tour.tsx';

/** A walk that ends in harm before all else that keeps it from being proved. */
const gravest = (findings: readonly Finding[]): Finding | undefined => {
  const errors = findings.filter(({ severity }) => severity === 'error');
  return errors.find(({ walk }) => walk.length > 0) ?? errors[0];
};

export function WriteView(): ReactNode {
  const { file, variant, overview } = shown.usePick('file', 'variant', 'overview', 'findings', 'between');
  const procedure = file?.startsWith('procedures/') ? file : undefined;
  const narrow = useNarrow('below');
  const review = useReview(file);
  const margin = useAnswer(
    'margin',
    procedure === undefined
      ? undefined
      : { file: procedure, ...(variant === undefined ? {} : { variant }), accepted: review?.record.accepted.map(({ key }) => key) ?? [] },
  );
  const document = overview?.documents.find((one) => one.file === file);
  const findings = findingsOf(file);
  // Where it is refuted may be far from where it was broken: the verdict leads there.
  const against = gravest(findings);
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  const verdict = document?.verdict === undefined ? undefined : verdictSaid(document.verdict, errors);
  const left = useCallback((places: LinePlaces) => <LeftMargin margin={margin} places={places} />, [margin]);
  return (
    <div className="write">
      <LibraryList />
      <main className="desk">
        <header className="sheet-head">
          <h1 title={file}>
            <span className="document-name" title={file === undefined ? undefined : nameOf(file)}>
              {file === undefined ? '' : nameOf(file)}
            </span>{' '}
            {verdict === undefined ? null : (
              <span className={`verdict verdict-${verdict.mark.replace(' ', '-')}`}>
                {against === undefined ? (
                  verdict.words
                ) : (
                  <button type="button" className="plain" title={against.message} onClick={() => goTo(against.file, against.span.start)}>
                    {verdict.words}
                  </button>
                )}
              </span>
            )}
          </h1>
          {margin ? (
            <label>
              {words.variant}{' '}
              <select
                value={variant ?? ''}
                onChange={(event) => shown.set({ variant: event.target.value === '' ? undefined : event.target.value })}
              >
                <option value="">{words.allVariants}</option>
                {margin.variants.map(({ name, verdict }) => (
                  <option key={name} value={name}>
                    {name}: {words[verdict]}
                  </option>
                ))}
              </select>
            </label>
          ) : null}
        </header>
        <FindStrip />
        {file === undefined ? (
          (overview?.documents.length ?? 0) > 0 ? (
            <p className="quiet">{words.chooseText}</p>
          ) : (
            <NothingYet of="write" />
          )
        ) : (
          <TextSheet
            file={file}
            label={document?.title ?? registerName(file)}
            left={left}
            onDropped={(dropped) => openPanel('figure', { dropped })}
            right={(places) => <RightMargin margin={margin} review={review} findings={findings} places={places} />}
          />
        )}
        {margin ? (
          <p className="desk-foot">
            <BandLegend />
          </p>
        ) : null}
      </main>
      <aside className="proof-side" aria-label={words.pageProof}>
        {narrow ? null : <Tour />}
        <h2>
          {words.pageProof}
          {/* A clean page beside a refuted text would look as if it could be issued. */}
          {procedure !== undefined && errors > 0 ? <span className="wrong"> ■ {words.proofBlocked(errors)}</span> : null}
        </h2>
        <PageProof margin={margin} number={document?.number ?? ''} />
      </aside>
    </div>
  );
}
