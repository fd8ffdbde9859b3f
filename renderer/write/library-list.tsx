/** The library as a list: documents under their machine, symptom or guide, each with its state at a glance. */
import { memo, type ReactNode, useState } from 'react';
import { gradeOf } from '../parts/findings.tsx';
import { listKeys } from '../parts/list-keys.ts';
import { registerName } from '../parts/place.tsx';
import { shown } from '../state/shown.ts';
import { show } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import type { DocumentLine } from '../worker/queries/queries.ts';

type Order = 'family' | 'symptom';

/** Drawn anew for what it shows only, not whenever the text beside it is. */
export const LibraryList = memo(function LibraryList(): ReactNode {
  const { overview, file, findings, between, unsaved } = shown.usePick('overview', 'file', 'findings', 'between', 'unsaved');
  const [filter, setFilter] = useState('');
  const [order, setOrder] = useState<Order>('family');
  const wanted = filter.trim().toLowerCase();
  const fits = (one: DocumentLine): boolean =>
    wanted === '' ||
    [one.number, one.title, ...one.models, ...one.symptoms, ...one.families].some((text) => text.toLowerCase().includes(wanted));
  const line = (one: { readonly file: string; readonly number: string; readonly title: string }) => {
    const own = [...(findings.get(one.file) ?? []), ...between.filter((found) => found.file === one.file)];
    const grade = gradeOf(own);
    const count = own.filter(({ severity }) => severity === grade).length;
    return (
      <li key={one.file}>
        <button type="button" className="entry" title={one.file} aria-current={one.file === file} onClick={() => show(one.file)}>
          {/* The spaces are for whoever hears it. */}
          <span className="entry-number">{one.number}</span> <span className="entry-title">{one.title}</span>{' '}
          <span className={`entry-state state-${grade}`}>
            {unsaved.has(one.file) ? `${words.unsaved} ` : ''}
            {grade === 'error' ? `■ ${words.errors(count)}` : grade === 'warning' ? `▲ ${words.warnings(count)}` : ''}
          </span>
        </button>
      </li>
    );
  };
  const procedures = overview?.documents.filter(({ kind }) => kind === 'procedure').filter(fits) ?? [];
  const heads = [...new Set(procedures.flatMap((one) => (order === 'family' ? one.families : one.symptoms)))];
  const loose = procedures.filter((one) => (order === 'family' ? one.families : one.symptoms).length === 0);
  return (
    <nav className="library" aria-label={words.library} onKeyDown={listKeys}>
      <input
        type="search"
        placeholder={words.filter}
        aria-label={words.filter}
        value={filter}
        onChange={(event) => setFilter(event.target.value)}
      />
      <p className="orders">
        {(['family', 'symptom'] as const).map((one) => (
          <button key={one} type="button" className="plain" aria-pressed={order === one} onClick={() => setOrder(one)}>
            {one === 'family' ? words.byFamily : words.bySymptom}
          </button>
        ))}
      </p>
      {heads.map((head) => (
        <section key={head}>
          <h3>{head}</h3>
          <Lines of={procedures.filter((one) => (order === 'family' ? one.families : one.symptoms).includes(head))} line={line} />
        </section>
      ))}
      <Lines of={loose} line={line} />
      <section>
        <h3>{words.guides}</h3>
        <ul>
          {overview?.documents
            .filter(({ kind }) => kind === 'guide')
            .filter(fits)
            .map(line)}
        </ul>
      </section>
      {wanted === '' ? (
        <section>
          <h3>{words.registers}</h3>
          <ul>{overview?.registers.map((path) => line({ file: path, number: '', title: registerName(path) }))}</ul>
        </section>
      ) : null}
    </nav>
  );
});

/** A longer list is searched, not read. */
const MOST = 60;

function Lines({ of, line }: { readonly of: readonly DocumentLine[]; readonly line: (one: DocumentLine) => ReactNode }): ReactNode {
  if (of.length === 0) return null;
  return (
    <>
      <ul>{of.slice(0, MOST).map(line)}</ul>
      {of.length > MOST ? <p className="quiet">{words.moreOf(of.length - MOST)}</p> : null}
    </>
  );
}
