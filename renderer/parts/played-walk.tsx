/** A counter-walk on the text: it opens where it goes wrong, and is played from its beginning by one key, with the lines each step stands in. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { Finding } from '../../procedures-schema/index.ts';
import { goTo } from '../state/shown.ts';
import { documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import { tabbed } from './entry-keys.ts';
import { nameOf } from './place.tsx';
import { WalkAnswers } from './walk-answers.tsx';

/** Lines shown before and after the step. */
const AROUND = 4;

export function PlayedWalk({ finding }: { readonly finding: Finding }): ReactNode {
  const { walk } = finding;
  const end = walk.length - 1;
  const [at, setAt] = useState(end);
  // What the finding says stays in sight until somebody goes along the walk.
  const moved = useRef(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another finding opens where it goes wrong itself
  useEffect(() => {
    moved.current = false;
    setAt(end);
  }, [finding.message, finding.span.start]);
  const go = (to: number): void => {
    moved.current = true;
    setAt(Math.max(0, Math.min(end, to)));
  };
  const step = walk[Math.min(at, end)];
  if (!step) return null;
  const last = at >= end;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys belong to the buttons inside
    <div
      className="played"
      onKeyDown={(event) => {
        if (event.key === 'ArrowDown' || event.key === 'ArrowRight') go(at + 1);
        else if (event.key === 'ArrowUp' || event.key === 'ArrowLeft') go(at - 1);
        else if (event.key === 'Home') go(0);
        else if (event.key === 'End') go(end);
        else return;
        event.preventDefault();
      }}
    >
      {/* Not disabled at the ends: a button that is loses the focus, and with it the keys. */}
      <p className="row">
        <button type="button" className={last ? 'main' : ''} aria-disabled={at === 0} onClick={() => go(0)}>
          {words.fromBeginning} <kbd>{words.homeKey}</kbd>
        </button>
        <button type="button" aria-disabled={at === 0} onClick={() => go(at - 1)}>
          {words.stepBack}
        </button>
        <button type="button" className={last ? '' : 'main'} aria-disabled={last} onClick={() => go(at + 1)}>
          {words.stepOn}
        </button>
        <span>{words.stepOf(at + 1, walk.length)}</span>
        <button type="button" className="plain" onClick={() => goTo(step.file, step.span.start, step.span.end)}>
          {words.toText}
        </button>
      </p>
      <Excerpt file={step.file} start={step.span.start} end={step.span.end} />
      <ol className="counter-walk" aria-label={words.walk}>
        {walk.map((one, index) => (
          <li
            // biome-ignore lint/suspicious/noArrayIndexKey: a step may be walked twice; its place in the walk is its name
            key={index}
            className={index === at ? 'here' : index < at ? 'done' : ''}
            ref={(element) => {
              if (index === at && moved.current) element?.scrollIntoView({ block: 'nearest' });
            }}
          >
            <button
              type="button"
              className="entry"
              tabIndex={tabbed(index === at)}
              aria-current={index === at ? 'step' : undefined}
              onClick={() => go(index)}
            >
              <b>
                {one.section} {one.label}
              </b>{' '}
              {one.text} <WalkAnswers step={one} />
              {index === end ? <span className="wrong"> ■ {finding.message}</span> : null}
            </button>
          </li>
        ))}
      </ol>
    </div>
  );
}

function Excerpt({ file, start, end }: { readonly file: string; readonly start: number; readonly end: number }): ReactNode {
  const text = documents.get(file)?.text ?? '';
  const lineStart = (from: number, lines: number): number => {
    let at = text.lastIndexOf('\n', from - 1) + 1;
    for (let left = lines; left > 0 && at > 0; left -= 1) at = text.lastIndexOf('\n', at - 2) + 1;
    return at;
  };
  const lineEnd = (from: number, lines: number): number => {
    let at = from;
    for (let left = lines; left >= 0 && at !== -1; left -= 1) at = text.indexOf('\n', at + 1);
    return at === -1 ? text.length : at;
  };
  return (
    <figure className="excerpt">
      <figcaption className="quiet" title={file}>
        {nameOf(file)}
      </figcaption>
      <pre>
        {text.slice(lineStart(start, AROUND), start)}
        <mark>{text.slice(start, end)}</mark>
        {text.slice(end, lineEnd(end, AROUND))}
      </pre>
    </figure>
  );
}
