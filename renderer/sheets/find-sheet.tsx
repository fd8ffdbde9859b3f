/** Find and replace across the library, with what would change shown first. */
import { type ReactNode, useState } from 'react';
import type { FoundTexts, Proposal } from '../../procedures-schema/assist/index.ts';
import { focus } from '../parts/focus.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { nameOf, usePlaces } from '../parts/place.tsx';
import { Preview } from '../parts/preview.tsx';
import { useAnswer } from '../state/answer.ts';
import { goTo } from '../state/shown.ts';
import { sought } from '../state/sought.ts';
import { applyProposed, core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

export function FindSheet(): ReactNode {
  // What was looked for in the text that is open is looked for here as well.
  const [ask, setAsk] = useState(() => {
    const { query, matchCase, wholeWord } = sought.get();
    return { query, pattern: false, matchCase, wholeWord };
  });
  const [by, setBy] = useState('');
  const [proposal, setProposal] = useState<Proposal>();
  const found = useAnswer('find', ask.query === '' ? undefined : ask);
  const box = (key: 'pattern' | 'matchCase' | 'wholeWord') => (
    <label className="tick">
      <input type="checkbox" checked={ask[key]} onChange={(event) => setAsk({ ...ask, [key]: event.target.checked })} /> {words[key]}
    </label>
  );
  return (
    <OverSheet title={words.find}>
      <div className="row">
        <input
          ref={focus}
          type="search"
          aria-label={words.find}
          value={ask.query}
          onChange={(event) => setAsk({ ...ask, query: event.target.value })}
        />
        {box('matchCase')} {box('wholeWord')} {box('pattern')}
      </div>
      <div className="row">
        <input aria-label={words.replaceBy} placeholder={words.replaceBy} value={by} onChange={(event) => setBy(event.target.value)} />
        <button type="button" disabled={ask.query === ''} onClick={() => void core.ask('replace', { ...ask, by }).then(setProposal)}>
          {words.replaceAll} …
        </button>
      </div>
      {proposal ? (
        <Preview
          proposal={proposal}
          apply={() => {
            if (proposal.ok) applyProposed(proposal.title, proposal.files);
            setProposal(undefined);
          }}
          cancel={() => setProposal(undefined)}
        />
      ) : found === undefined ? null : found.ok ? (
        <>
          {found.more ? <p className="wrong">{words.foundCut(found.count)}</p> : null}
          <Found files={found.files} />
        </>
      ) : (
        <p className="wrong">{found.reason}</p>
      )}
    </OverSheet>
  );
}

/** Hits of one file that are listed at first: more are seldom read. How many more there are is said. */
const MOST = 50;

/** The line with what was found in it: two places of one line are told apart by it. */
function Line({ hit }: { readonly hit: Files[number]['found'][number] }): ReactNode {
  const start = hit.column - 1;
  const end = start + hit.span.end - hit.span.start;
  return (
    <>
      {hit.text.slice(0, start).trimStart()}
      <mark className="found-text">{hit.text.slice(start, end)}</mark>
      {hit.text.slice(end).trimEnd()}
    </>
  );
}

type Files = (FoundTexts & { readonly ok: true })['files'];

function Found({ files }: { readonly files: Files }): ReactNode {
  const [whole, setWhole] = useState<ReadonlySet<string>>(new Set());
  const listed = files.map(({ file, found }) => ({
    file,
    found: whole.has(file) ? found : found.slice(0, MOST),
    left: found.length - MOST,
  }));
  const hits = listed.flatMap(({ file, found }) => found.map((hit) => ({ file, offset: hit.span.start })));
  const places = usePlaces(hits);
  let at = 0;
  return (
    <ul className="found">
      {listed.flatMap(({ file, found, left }) => [
        ...found.map((hit) => {
          const place = places[at];
          at += 1;
          return (
            <li key={`${file}${hit.span.start}`}>
              <button type="button" className="plain" onClick={() => goTo(file, hit.span.start, hit.span.end)}>
                <span className="quiet" title={place?.title}>
                  {place?.words}
                </span>{' '}
                <Line hit={hit} />
              </button>
            </li>
          );
        }),
        ...(left > 0 && !whole.has(file)
          ? [
              <li key={`${file} more`} className="found-more">
                {words.moreFound(left, nameOf(file))}{' '}
                <button type="button" onClick={() => setWhole(new Set([...whole, file]))}>
                  {words.showThem}
                </button>
              </li>,
            ]
          : []),
      ])}
    </ul>
  );
}
