/** The library as a list: documents under their machine, symptom or guide, each with its state at a glance. */
import { memo, type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import type { Finding } from '../../procedures-schema/index.ts';
import { registerName } from '../parts/place.tsx';
import { useKept } from '../state/kept-state.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import type { DocumentLine } from '../worker/queries/queries.ts';
import { Caption, type Counted, LibraryEntry, pointAt, pointed } from './library-entry.tsx';
import { fieldKeys, lineKeys, takeSeeking, useSeeking } from './list-keys.ts';
import { fitting, isOnly, ONLY, type Only, ORDERS, type Order, type ShelfOfList, shelvesOf } from './shelves.ts';

const ORDER_NAMES: Readonly<Record<Order, string>> = { family: words.byFamily, symptom: words.bySymptom, guide: words.byGuide };
const NOWHERE: Readonly<Record<Order, string>> = { family: words.ofNoMachine, symptom: words.ofNoSymptom, guide: words.inNoGuide };
const NO_DOCUMENTS: readonly DocumentLine[] = [];
const NOTHING: ReadonlySet<string> = new Set();

/** Drawn anew for what it shows only, not whenever the text beside it is. */
export const LibraryList = memo(function LibraryList(): ReactNode {
  const { overview, file } = shown.usePick('overview', 'file');
  const countedOf = useCounted();
  const [filter, setFilter] = useState('');
  const [order, setOrder] = useKept<Order>('library order', 'family');
  const [only, setOnly] = useKept<Only>('library only', 'all');
  const documents = overview?.documents ?? NO_DOCUMENTS;
  // Without a choice nothing of this is asked, and the shelves stand while somebody types.
  const counts = only === 'all' ? undefined : countedOf;
  const fits = useMemo(() => {
    const sought = fitting(filter);
    return (one: DocumentLine): boolean => {
      const counted = counts?.(one.file);
      return sought(one) && (!counted || isOnly(only, one, { found: counted.errors + counted.warnings > 0, unsaved: counted.unsaved }));
    };
  }, [filter, only, counts]);
  const shelves = useMemo(() => shelvesOf(documents, order, fits), [documents, order, fits]);
  const guides = useMemo(
    () => (order === 'guide' ? NO_DOCUMENTS : documents.filter(({ kind }) => kind === 'guide').filter(fits)),
    [documents, order, fits],
  );
  const whole = filter.trim() === '' && only === 'all';
  const [folded, setFolded] = useKept<ReadonlySet<string>>('shelves folded', NOTHING);
  const foldOf = (head: string): Fold => {
    const name = `${order} ${head}`;
    return {
      // What is looked for is never hidden by it.
      folded: whole && folded.has(name),
      turn: () => setFolded(new Set(folded.has(name) ? [...folded].filter((one) => one !== name) : [...folded, name])),
    };
  };
  const field = useRef<HTMLInputElement>(null);
  const lines = useRef<HTMLDivElement>(null);
  const seeking = useSeeking();
  useEffect(() => {
    if (seeking) takeSeeking(field.current);
  }, [seeking]);
  // Opened from elsewhere, it is in sight here too, and so it is again when nothing is looked for any more.
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is scrolled to is the line of this file
  useEffect(() => {
    lines.current?.querySelector('.entry[aria-current=true]')?.scrollIntoView({ block: 'nearest' });
  }, [file, order, only, filter === '']);
  // Tab comes to the text that is open, and where that is not to be seen to the first line.
  useEffect(() => {
    const list = lines.current;
    if (!list || list.querySelector('.entry[aria-current=true]')) return;
    const first = list.querySelector<HTMLElement>('.entry, .shelf-head');
    if (first) first.tabIndex = 0;
    return () => {
      if (first && first.ariaCurrent !== 'true') first.tabIndex = -1;
    };
  });
  const line = (one: DocumentLine): ReactNode => (
    <LibraryEntry
      key={one.file}
      file={one.file}
      number={one.number}
      title={one.title}
      line={one}
      current={one.file === file}
      tabbed={one.file === file}
      {...countedOf(one.file)}
    />
  );
  return (
    <nav className="library" aria-label={words.library}>
      <input
        ref={field}
        type="search"
        placeholder={words.filter}
        aria-label={words.filter}
        value={filter}
        onChange={(event) => setFilter(event.target.value)}
        onKeyDown={(event) => fieldKeys(event, () => setFilter(''))}
      />
      <select className="only" aria-label={words.listed} value={only} onChange={({ target }) => setOnly(target.value as Only)}>
        {ONLY.map((one) => (
          <option key={one} value={one}>
            {words.listedOnly[one]}
          </option>
        ))}
      </select>
      <p className="orders">
        {ORDERS.map((one) => (
          <button key={one} type="button" className="plain" aria-pressed={order === one} onClick={() => setOrder(one)}>
            {ORDER_NAMES[one]}
          </button>
        ))}
      </p>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: it only watches where the buttons in it are pointed at */}
      <div
        ref={lines}
        className="library-lines"
        onKeyDown={lineKeys}
        onMouseOver={({ target }) => pointAt(target)}
        onMouseLeave={() => pointed.set({ file: undefined })}
        onFocus={({ target }) => pointAt(target)}
        onBlur={() => pointed.set({ file: undefined })}
      >
        {shelves.map((shelf) => (
          <Shelf key={shelf.head ?? ' '} shelf={shelf} name={shelf.head ?? NOWHERE[order]} line={line} {...foldOf(shelf.head ?? '')} />
        ))}
        {guides.length === 0 ? null : <Shelf shelf={{ head: '', lines: guides }} name={words.guides} line={line} {...foldOf(' guides')} />}
        {whole ? (
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
                  tabbed={path === file}
                  {...countedOf(path)}
                />
              ))}
            </ul>
          </section>
        ) : shelves.length + guides.length === 0 ? (
          <p className="quiet">{words.noneListed}</p>
        ) : null}
      </div>
      <PointedAt documents={documents} countedOf={countedOf} />
    </nav>
  );
});

type CountedOf = (file: string) => Counted;

/** The same function while nothing that it counts has changed. */
function useCounted(): CountedOf {
  const { findings, between, unsaved } = shown.usePick('findings', 'between', 'unsaved');
  const betweenBy = useMemo(() => {
    const by = new Map<string, Finding[]>();
    for (const one of between) by.set(one.file, [...(by.get(one.file) ?? []), one]);
    return by;
  }, [between]);
  return useMemo(
    () => (file: string) => {
      const own = [...(findings.get(file) ?? []), ...(betweenBy.get(file) ?? [])];
      const count = (grade: string): number => own.filter(({ severity }) => severity === grade).length;
      return { errors: count('error'), warnings: count('warning'), unsaved: unsaved.has(file) };
    },
    [findings, betweenBy, unsaved],
  );
}

/** Where nobody points, the text that is open is told. */
function PointedAt({ documents, countedOf }: { readonly documents: readonly DocumentLine[]; readonly countedOf: CountedOf }): ReactNode {
  const { file: at } = pointed.use();
  const file = at ?? shown.get().file;
  const line = documents.find((one) => one.file === file);
  return <Caption line={line} counted={countedOf(line?.file ?? '')} />;
}

interface Fold {
  readonly folded: boolean;
  readonly turn: () => void;
}

/** So many at a time: a longer list is searched rather than read, and drawing thousands would keep a key waiting. */
const MOST = 150;

interface ShelfProps extends Fold {
  readonly shelf: ShelfOfList;
  readonly name: string;
  readonly line: (one: DocumentLine) => ReactNode;
}

function Shelf({ shelf: { guide, lines }, name, line, folded, turn }: ShelfProps): ReactNode {
  const [most, setMost] = useState(MOST);
  return (
    <section>
      {guide ? <ul className="bound-in">{line(guide)}</ul> : null}
      {guide && lines.length === 0 ? null : (
        <h3 className={guide ? 'bound-count' : ''}>
          <button type="button" className="shelf-head" aria-expanded={!folded} tabIndex={-1} onClick={turn}>
            <span aria-hidden="true">{folded ? '▸' : '▾'}</span> {guide ? words.boundCount(lines.length) : name}
            {guide ? null : <span className="quiet"> {lines.length}</span>}
          </button>
        </h3>
      )}
      {folded ? null : <ul className={guide ? 'bound' : ''}>{lines.slice(0, most).map(line)}</ul>}
      {folded || lines.length <= most ? null : (
        <p className="quiet">
          {words.moreOf(lines.length - most)}{' '}
          <button type="button" className="plain" onClick={() => setMost(most + MOST)}>
            {words.showMore}
          </button>
        </p>
      )}
    </section>
  );
}
