/** All findings of the library by document or by kind; the counter-walk of the one chosen is played on the text. */
import type { ReactNode } from 'react';
import type { Finding } from '../../procedures-schema/index.ts';
import { entryKeys, tabbed } from '../parts/entry-keys.ts';
import { allFindings, FindingNote, Grade } from '../parts/findings.tsx';
import { nameOf, Place, usePlaces } from '../parts/place.tsx';
import { useAnswer } from '../state/answer.ts';
import { useKept } from '../state/kept-state.ts';
import { goTo, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { RemarkHere } from './remark-here.tsx';

const NOTHING = {};

export function FindingsList(): ReactNode {
  shown.usePick('overview', 'findings', 'between');
  const [by, setBy] = useKept<'document' | 'kind'>('findings by', 'document');
  const [chosen, setChosen] = useKept<string | undefined>('finding', undefined);
  const questions = useAnswer('questions', by === 'kind' ? NOTHING : undefined);
  const findings = allFindings();
  const groupOf = (finding: Finding): string => {
    if (by === 'kind') return finding.check;
    return nameOf(finding.file);
  };
  const rank = { error: 0, warning: 1, advice: 2 };
  const sorted = [...findings].sort((a, b) => rank[a.severity] - rank[b.severity] || a.span.start - b.span.start);
  const groups = [...new Set(sorted.map(groupOf))];
  const keyOf = (finding: Finding): string => `${finding.file}${finding.check}${finding.span.start}${finding.message}`;
  // Until one is chosen, the gravest that has a walk to play.
  const open = sorted.find((finding) => keyOf(finding) === chosen) ?? sorted.find(({ walk }) => walk.length > 0) ?? sorted[0];
  const places = usePlaces(sorted.map(({ file, span }) => ({ file, offset: span.start })));
  const placed = new Map(sorted.map((finding, index) => [finding, places[index]]));
  const placeOf = (finding: Finding): string | undefined => placed.get(finding)?.[by === 'kind' ? 'words' : 'within'];
  return (
    <div className="two">
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the keys belong to the buttons inside */}
      <div className="list" onKeyDown={entryKeys}>
        <p className="orders">
          <button type="button" className="plain" aria-pressed={by === 'document'} onClick={() => setBy('document')}>
            {words.byDocument}
          </button>
          <button type="button" className="plain" aria-pressed={by === 'kind'} onClick={() => setBy('kind')}>
            {words.byKind}
          </button>
        </p>
        {sorted.length === 0 ? <p>{words.nothingFound}</p> : null}
        {groups.map((group) => (
          <section key={group}>
            <h3>
              {by === 'kind' ? (questions?.[group] ?? group) : group}{' '}
              <span className="count-of">({sorted.filter((finding) => groupOf(finding) === group).length})</span>
            </h3>
            <ul>
              {sorted
                .filter((finding) => groupOf(finding) === group)
                .map((finding) => (
                  <li key={keyOf(finding)}>
                    <button
                      type="button"
                      className="entry"
                      aria-current={finding === open}
                      tabIndex={tabbed(finding === open)}
                      onClick={() => setChosen(keyOf(finding))}
                      onDoubleClick={() => goTo(finding.file, finding.span.start, finding.span.end)}
                    >
                      <Grade severity={finding.severity} /> {finding.message} <span className="entry-place">{placeOf(finding)}</span>
                    </button>
                  </li>
                ))}
            </ul>
          </section>
        ))}
      </div>
      <div className="detail">
        {open ? (
          <>
            <p className="row place-row">
              <button type="button" className="plain" onClick={() => goTo(open.file, open.span.start, open.span.end)}>
                <Place file={open.file} offset={open.span.start} />
              </button>
              <span className="quiet">{open.variants.join(', ')}</span>
              <RemarkHere file={open.file} offset={open.span.start} />
            </p>
            <FindingNote finding={open} whole played />
          </>
        ) : null}
      </div>
    </div>
  );
}
