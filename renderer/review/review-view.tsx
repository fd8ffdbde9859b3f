/** Review: findings with their counter-walks, walks, the graph of all ways, coverage, changes, remarks and signatures. One sheet a file. */
import type { ComponentType, ReactNode } from 'react';
import { useProcedure } from '../parts/document-choice.tsx';
import { allFindings } from '../parts/findings.tsx';
import { NothingYet } from '../parts/nothing-yet.tsx';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { Changes } from './changes.tsx';
import { Coverage } from './coverage.tsx';
import { FilmSheet } from './film-sheet.tsx';
import { FindingsList } from './findings-list.tsx';
import { Remarks } from './remarks.tsx';
import { reviewing, type Sheet } from './reviewing.ts';
import { SignOff } from './sign-off.tsx';
import { Walking } from './walking.tsx';
import { Ways } from './ways.tsx';

const SHEETS = {
  findings: FindingsList,
  walk: Walking,
  ways: Ways,
  coverage: Coverage,
  changes: Changes,
  remarks: Remarks,
  film: FilmSheet,
  signOff: SignOff,
} as const satisfies Readonly<Record<Sheet, ComponentType>>;

export function ReviewView(): ReactNode {
  const { sheet } = reviewing.use();
  const Shown = SHEETS[sheet];
  const about = useProcedure();
  shown.usePick('findings', 'between');
  // Findings and tables are of registers too; all else is of a procedure.
  const something = sheet === 'findings' ? about !== undefined || allFindings().length > 0 : sheet === 'coverage' || about !== undefined;
  return (
    <main className="review">
      <nav className="sub" aria-label={words.review}>
        {(Object.keys(SHEETS) as Sheet[]).map((one) => (
          <button key={one} type="button" aria-pressed={one === sheet} onClick={() => reviewing.set({ sheet: one })}>
            {words[one]}
          </button>
        ))}
      </nav>
      {something ? <Shown /> : <NothingYet of={sheet} />}
    </main>
  );
}
