/** What a change of several files would do, line by line, before it is done. */
import type { ReactNode } from 'react';
import type { ChangedLines, Proposal } from '../../procedures-schema/assist/index.ts';
import { words } from '../words/words.ts';
import { nameOf } from './place.tsx';

interface Props {
  readonly proposal: Proposal;
  readonly apply: () => void;
  readonly cancel: () => void;
}

export function Preview({ proposal, apply, cancel }: Props): ReactNode {
  if (!proposal.ok) return <p className="wrong">{proposal.reason}</p>;
  return (
    <div className="preview">
      <p>
        {proposal.title}{' '}
        <button type="button" className="main" onClick={apply}>
          {words.apply}
        </button>{' '}
        <button type="button" onClick={cancel}>
          {words.cancel}
        </button>
      </p>
      {proposal.files.map(({ file, lines }) => (
        <div key={file}>
          <h3 title={file}>{nameOf(file)}</h3>
          <ChangedText lines={lines} />
        </div>
      ))}
    </div>
  );
}

/** Stretches of lines as they were and as they become. */
export function ChangedText({ lines }: { readonly lines: readonly ChangedLines[] }): ReactNode {
  return (
    <>
      {lines.map((own) => (
        <div key={own.line} className="changed">
          {own.before.map((line, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name but their place
            <del key={index}>{line}</del>
          ))}
          {own.after.map((line, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines have no name but their place
            <ins key={index}>{line}</ins>
          ))}
        </div>
      ))}
    </>
  );
}
