/** A counter-walk played on the text: one step at a time, with the lines it stands in. */
import { type ReactNode, useEffect, useState } from 'react';
import type { Finding } from '../../procedures-schema/index.ts';
import { goTo } from '../state/shown.ts';
import { documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import { nameOf } from './place.tsx';

/** Lines shown before and after the step. */
const AROUND = 4;

export function PlayedWalk({ finding }: { readonly finding: Finding }): ReactNode {
  const { walk } = finding;
  const [at, setAt] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another finding begins at its own first step
  useEffect(() => setAt(0), [finding.message, finding.span.start]);
  const step = walk[Math.min(at, walk.length - 1)];
  if (!step) return null;
  const last = at >= walk.length - 1;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys belong to the buttons inside
    <div
      className="played"
      onKeyDown={(event) => {
        if (event.key === 'ArrowDown' || event.key === 'ArrowRight') setAt(Math.min(walk.length - 1, at + 1));
        else if (event.key === 'ArrowUp' || event.key === 'ArrowLeft') setAt(Math.max(0, at - 1));
        else return;
        event.preventDefault();
      }}
    >
      <p className="row">
        <button type="button" disabled={at === 0} onClick={() => setAt(at - 1)}>
          {words.stepBack}
        </button>
        <button type="button" className="main" disabled={last} onClick={() => setAt(at + 1)}>
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
              if (index === at && at > 0) element?.scrollIntoView({ block: 'nearest' });
            }}
          >
            <button type="button" className="entry" aria-current={index === at ? 'step' : undefined} onClick={() => setAt(index)}>
              <b>
                {one.section} {one.label}
              </b>{' '}
              {one.text} {one.note === undefined ? null : <i>({one.note})</i>}
              {index === walk.length - 1 ? <span className="wrong"> ■ {finding.message}</span> : null}
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
