/** How the pages come to stand on the printer's paper: one by one, to be folded into a booklet, or two beside each other. */
import type { ReactNode } from 'react';
import { type PressChoice, sheets } from '../../publishing/index.ts';
import { words } from '../words/words.ts';

const KINDS = ['single', 'booklet', 'two-up'] as const;
const PAPERS = Object.keys(sheets) as PressChoice['sheet'][];
const SIGNATURES = [1, 2, 3, 4, 5, 6, 8] as const;
/** A tenth of a millimetre, the usual paper of 80 g/m² (common practice, no source), in millipoints. */
const THICKNESS = 283;

/** As it stands on the packet: A4, Letter. */
export const paperName = (paper: string): string =>
  paper.length === 2 ? paper.toUpperCase() : `${paper.charAt(0).toUpperCase()}${paper.slice(1)}`;

interface Props {
  readonly press: PressChoice | undefined;
  readonly take: (press: PressChoice | undefined) => void;
}

export function SheetsChoice({ press, take }: Props): ReactNode {
  const choose = (kind: (typeof KINDS)[number]): void => {
    if (kind === 'single') return take(undefined);
    const { signature: _, thickness: __, ...rest } = press ?? { sheet: 'a4' as const };
    take({ ...rest, kind, ...(kind === 'booklet' ? { thickness: THICKNESS } : {}) });
  };
  return (
    <>
      <label>
        {words.onSheets}
        <select value={press?.kind ?? 'single'} onChange={(event) => choose(event.target.value as (typeof KINDS)[number])}>
          {KINDS.map((kind) => (
            <option key={kind} value={kind}>
              {words.sheetKinds[kind]}
            </option>
          ))}
        </select>
      </label>
      {press ? <Sheet press={press} take={take} /> : null}
    </>
  );
}

function Sheet({ press, take }: Props & { readonly press: PressChoice }): ReactNode {
  return (
    <>
      <label>
        {words.sheetPaper}
        <select value={press.sheet} onChange={(event) => take({ ...press, sheet: event.target.value as PressChoice['sheet'] })}>
          {PAPERS.map((paper) => (
            <option key={paper} value={paper}>
              {paperName(paper)}
            </option>
          ))}
        </select>
      </label>
      {press.kind === 'booklet' ? (
        <label>
          {words.sheetsFolded}
          <select
            value={press.signature ?? ''}
            onChange={(event) => {
              const { signature: _, ...rest } = press;
              take(event.target.value === '' ? rest : { ...rest, signature: Number(event.target.value) });
            }}
          >
            <option value="">{words.allFolded}</option>
            {SIGNATURES.map((count) => (
              <option key={count}>{count}</option>
            ))}
          </select>
        </label>
      ) : null}
      {(['marks', 'test'] as const).map((key) => (
        <label key={key} className="tick">
          <input type="checkbox" checked={press[key] === true} onChange={(event) => take({ ...press, [key]: event.target.checked })} />{' '}
          {key === 'marks' ? words.cutMarks : words.testSheet}
        </label>
      ))}
      {press.kind === 'booklet' ? <p className="quiet">{words.flipShort}</p> : null}
    </>
  );
}
