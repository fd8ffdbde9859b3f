/** Review: all findings, a walk made as a technician makes it, and what the library covers. */
import { type ReactNode, useState } from 'react';
import { words } from '../words/words.ts';
import { Coverage } from './coverage.tsx';
import { FindingsList } from './findings-list.tsx';
import { Walking } from './walking.tsx';

const SHEETS = ['findings', 'walk', 'coverage'] as const;

export function ReviewView(): ReactNode {
  const [sheet, setSheet] = useState<(typeof SHEETS)[number]>('findings');
  return (
    <main className="review">
      <nav className="sub" aria-label={words.review}>
        {SHEETS.map((one) => (
          <button key={one} type="button" aria-pressed={one === sheet} onClick={() => setSheet(one)}>
            {words[one]}
          </button>
        ))}
      </nav>
      {sheet === 'findings' ? <FindingsList /> : sheet === 'walk' ? <Walking /> : <Coverage />}
    </main>
  );
}
