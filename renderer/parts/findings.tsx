/** One finding as it stands beside a line or in a list: what, what would be right, why, and its fix. */
import type { ReactNode } from 'react';
import type { Finding } from '../../procedures-schema/index.ts';
import { findingsOf, mend } from '../state/margin-deeds.ts';
import { goTo, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { PlayedWalk } from './played-walk.tsx';
import { WalkAnswers } from './walk-answers.tsx';

export { findingsOf };

/** Shape and word tell the grade, colour only repeats it. */
const MARKS = { error: '■', warning: '▲', advice: '○' } as const;
export const GRADES = { error: words.error, warning: words.warningWord, advice: words.adviceWord } as const;

export function Grade({ severity }: { readonly severity: Finding['severity'] }): ReactNode {
  return (
    <span className={`grade grade-${severity}`}>
      <span aria-hidden="true">{MARKS[severity]} </span>
      {GRADES[severity]}
    </span>
  );
}

interface Props {
  readonly finding: Finding;
  /** With its reason and its walk. */
  readonly whole: boolean;
  /** The walk is played on the text instead of listed. */
  readonly played?: boolean;
}

export function FindingNote({ finding, whole, played = false }: Props): ReactNode {
  const { fix } = finding;
  return (
    <div className={`note note-${finding.severity}${whole ? ' note-here' : ''}`}>
      <p className="note-head">
        <Grade severity={finding.severity} /> {finding.message}
      </p>
      {finding.expected === undefined ? null : (
        <p>
          <span className="note-word">{words.right}</span> {finding.expected}
        </p>
      )}
      {whole ? (
        <p>
          <span className="note-word">{words.why}</span> {finding.why}
        </p>
      ) : null}
      {whole && finding.walk.length > 0 ? played ? <PlayedWalk finding={finding} /> : <CounterWalk finding={finding} /> : null}
      {fix === undefined ? null : (
        <button type="button" className="plain" onClick={() => void mend(finding)}>
          {words.fix}: {fix.title}
        </button>
      )}
    </div>
  );
}

/** The shortest walk on which it goes wrong; each step leads to its text. */
export function CounterWalk({ finding }: { readonly finding: Finding }): ReactNode {
  return (
    <ol className="counter-walk" aria-label={words.walk}>
      {finding.walk.map((step, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a step may be walked twice; its place in the walk is its name
        <li key={index}>
          <button type="button" className="plain" onClick={() => goTo(step.file, step.span.start, step.span.end)}>
            <b>
              {step.section} {step.label}
            </b>{' '}
            {step.text} <WalkAnswers step={step} />
          </button>
        </li>
      ))}
    </ol>
  );
}

export function allFindings(): readonly Finding[] {
  const { findings, between } = shown.get();
  return [...between, ...[...findings.values()].flat()];
}

export const gradeOf = (findings: readonly Finding[]): 'error' | 'warning' | 'clean' =>
  findings.some(({ severity }) => severity === 'error')
    ? 'error'
    : findings.some(({ severity }) => severity === 'warning')
      ? 'warning'
      : 'clean';
