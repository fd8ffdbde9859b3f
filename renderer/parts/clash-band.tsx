/** The choice where a file changed on disk under unsaved text: what differs, and what can be kept. Doing it is for `state/saving.ts`. */
import type { ReactNode } from 'react';
import { differingLines } from '../state/differing-lines.ts';
import { hasNumberOfItsOwn, keepBoth, keepMine, takeTheirs } from '../state/saving.ts';
import { type Clash, shown } from '../state/shown.ts';
import { documents } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import { nameOf } from './place.tsx';

export function ClashBand({ clash }: { readonly clash: Clash }): ReactNode {
  // Told anew while it is typed on: the choice is between the texts as they are.
  shown.usePick('revision');
  const { path, theirs } = clash;
  const mine = documents.get(path)?.text ?? '';
  return (
    <div className="band-message" role="alert" title={path}>
      {theirs === null ? words.clashGone(nameOf(path)) : words.clash(nameOf(path))}{' '}
      <button type="button" onClick={() => takeTheirs(clash)}>
        {theirs === null ? words.letGo : words.takeTheirs}
      </button>{' '}
      <button type="button" onClick={() => void keepMine(clash)}>
        {words.keepMine}
      </button>{' '}
      {theirs !== null && hasNumberOfItsOwn(path) ? (
        <button type="button" onClick={() => void keepBoth(clash)}>
          {words.keepBoth}
        </button>
      ) : null}
      {theirs === null ? null : <Difference theirs={theirs.replace(/^\uFEFF/, '')} mine={mine} />}
    </div>
  );
}

function Difference({ theirs, mine }: { readonly theirs: string; readonly mine: string }): ReactNode {
  const pieces = differingLines(theirs, mine);
  if (pieces.length === 0) return <p className="quiet">{words.noDifference}</p>;
  return (
    <details className="clash-lines">
      <summary>{words.differsIn(pieces.length)}</summary>
      {pieces.map(({ line, before, after }) => (
        <div key={line} className="changed" title={words.lineCalled(line)}>
          {before.map((text, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name but their place
            <del key={index}>{text}</del>
          ))}
          {after.map((text, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name but their place
            <ins key={index}>{text}</ins>
          ))}
        </div>
      ))}
    </details>
  );
}
