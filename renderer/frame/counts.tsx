/** How much was found: in the whole library for whoever looks at the foot, in the open text for whoever listens. */
import { type ReactNode, useEffect, useState } from 'react';
import type { Finding } from '../../procedures-schema/index.ts';
import { allFindings, findingsOf, gradeOf } from '../parts/findings.tsx';
import { reviewing } from '../review/reviewing.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';

export function Counts(): ReactNode {
  shown.usePick('findings', 'between');
  const findings = allFindings();
  return (
    <>
      <p className={`counts state-${gradeOf(findings)}`}>
        <button
          type="button"
          className="plain"
          onClick={() => {
            reviewing.set({ sheet: 'findings' });
            shown.set({ view: 'review' });
          }}
        >
          {counted(findings)}
        </button>
      </p>
      <HeardCounts />
    </>
  );
}

function counted(findings: readonly Finding[]): string {
  const count = (severity: string): number => findings.filter((one) => one.severity === severity).length;
  return `${words.errors(count('error'))}, ${words.warnings(count('warning'))}, ${words.advice(count('advice'))}`;
}

/** Milliseconds without a key after which whoever listens is told. */
const REST = 1500;

/** What others see grow in the margin: how much was found in the open text, said when it has become another number and the hands rest. */
function HeardCounts(): ReactNode {
  const { file } = shown.usePick('file', 'findings', 'between');
  const [heard, setHeard] = useState('');
  const now = file === undefined ? '' : counted(findingsOf(file));
  useEffect(() => {
    if (now === heard) return;
    let timer = setTimeout(rested, REST, shown.get().revision);
    // The hands rest when nothing was checked for so long.
    function rested(before: number): void {
      const { revision, checking } = shown.get();
      if (revision === before && !checking) setHeard(now);
      else timer = setTimeout(rested, REST, revision);
    }
    return () => clearTimeout(timer);
  }, [now, heard]);
  return (
    <span className="heard" aria-live="polite">
      {heard}
    </span>
  );
}
