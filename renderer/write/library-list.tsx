/** The library as a list: documents under their machine, symptom or guide, each with its state at a glance. */
import { memo, type ReactNode, useMemo, useState } from 'react';
import type { Finding } from '../../procedures-schema/index.ts';
import { gradeOf } from '../parts/findings.tsx';
import { registerName } from '../parts/place.tsx';
import { useKept } from '../state/kept-state.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { DocumentLine } from '../worker/queries/queries.ts';
import { Caption, type Counted, LibraryEntry, pointAt, pointed } from './library-entry.tsx';
import { fitting, ORDERS, type Order, shelvesOf } from './shelves.ts';

const ORDER_NAMES: Readonly<Record<Order, string>> = { family: words.byFamily, symptom: words.bySymptom, guide: words.byGuide };
const NOWHERE: Readonly<Record<Order, string>> = { family: words.ofNoMachine, symptom: words.ofNoSymptom, guide: words.inNoGuide };
const NO_DOCUMENTS: readonly DocumentLine[] = [];

/** Drawn anew for what it shows only, not whenever the text beside it is. */
export const LibraryList = memo(function LibraryList(): ReactNode {
  const { overview, file } = shown.usePick('overview', 'file');
  const countedOf = useCounted();
  const [filter, setFilter] = useState('');
  const [order, setOrder] = useKept<Order>('library order', 'family');
  const documents = overview?.documents ?? NO_DOCUMENTS;
  const shelves = useMemo(() => shelvesOf(documents, order, filter), [documents, order, filter]);
  const guides = useMemo(
    () => (order === 'guide' ? NO_DOCUMENTS : documents.filter(({ kind }) => kind === 'guide').filter(fitting(filter))),
    [documents, order, filter],
  );
  const line = (one: DocumentLine): ReactNode => (
    <LibraryEntry
      key={one.file}
      file={one.file}
      number={one.number}
      title={one.title}
      line={one}
      current={one.file === file}
      {...countedOf(one.file)}
    />
  );
  return (
    <nav className="library" aria-label={words.library}>
      <input
        type="search"
        placeholder={words.filter}
        aria-label={words.filter}
        value={filter}
        onChange={(event) => setFilter(event.target.value)}
      />
      <p className="orders">
        {ORDERS.map((one) => (
          <button key={one} type="button" className="plain" aria-pressed={order === one} onClick={() => setOrder(one)}>
            {ORDER_NAMES[one]}
          </button>
        ))}
      </p>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: it only watches where the buttons in it are pointed at */}
      <div
        className="library-lines"
        onMouseOver={({ target }) => pointAt(target)}
        onMouseLeave={() => pointed.set({ file: undefined })}
        onFocus={({ target }) => pointAt(target)}
        onBlur={() => pointed.set({ file: undefined })}
      >
        {shelves.map(({ head, guide, lines }) => (
          <section key={head ?? ' '}>
            {guide ? <ul className="bound-in">{line(guide)}</ul> : <h3>{head ?? NOWHERE[order]}</h3>}
            <Lines of={lines} line={line} />
          </section>
        ))}
        {guides.length === 0 ? null : (
          <section>
            <h3>{words.guides}</h3>
            <ul>{guides.map(line)}</ul>
          </section>
        )}
        {filter.trim() === '' ? (
          <section>
            <h3>{words.registers}</h3>
            <ul>
              {overview?.registers.map((path) => (
                <LibraryEntry
                  key={path}
                  file={path}
                  number=""
                  title={registerName(path)}
                  line={undefined}
                  current={path === file}
                  {...countedOf(path)}
                />
              ))}
            </ul>
          </section>
        ) : null}
      </div>
      <PointedAt documents={documents} countedOf={countedOf} />
    </nav>
  );
});

type CountedOf = (file: string) => Counted;

function useCounted(): CountedOf {
  const { findings, between, unsaved } = shown.usePick('findings', 'between', 'unsaved');
  const betweenBy = useMemo(() => {
    const by = new Map<string, Finding[]>();
    for (const one of between) by.set(one.file, [...(by.get(one.file) ?? []), one]);
    return by;
  }, [between]);
  return (file) => {
    const own = [...(findings.get(file) ?? []), ...(betweenBy.get(file) ?? [])];
    const grade = gradeOf(own);
    return { grade, count: own.filter(({ severity }) => severity === grade).length, unsaved: unsaved.has(file) };
  };
}

/** Where nobody points, the text that is open is told. */
function PointedAt({ documents, countedOf }: { readonly documents: readonly DocumentLine[]; readonly countedOf: CountedOf }): ReactNode {
  const { file: at } = pointed.use();
  const file = at ?? shown.get().file;
  const line = documents.find((one) => one.file === file);
  return <Caption line={line} counted={countedOf(line?.file ?? '')} />;
}

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
