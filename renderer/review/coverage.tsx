/** What the library covers, as tables; every cell leads to its text, and what is missing says so. */
import { Fragment, type ReactNode } from 'react';
import { useAnswer } from '../state/answer.ts';
import { goTo, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';

const NOTHING = {};

export function Coverage(): ReactNode {
  const tables = useAnswer('coverage', NOTHING);
  const { overview } = shown.usePick('overview');
  const files = new Map((overview?.documents ?? []).map(({ number, file }) => [number, file]));
  if (!tables) return <p className="quiet">{words.checking}</p>;
  return (
    <div className="coverage">
      {tables.map(({ id, family, columns, rows }, place) => (
        <section key={`${id} ${family}`}>
          {tables[place - 1]?.id === id ? null : <h2>{words[id]}</h2>}
          <h3>{family}</h3>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table is scrolled from the keyboard too */}
          <section className="wide" tabIndex={0} aria-label={`${words[id]}, ${family}`}>
            <table>
              <thead>
                <tr>
                  <td />
                  {columns.map((name) => (
                    <th key={name} scope="col">
                      {name}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {rows.map(({ name, cells }) => (
                  <tr key={name}>
                    <th scope="row">{name}</th>
                    {cells.map((cell, index) => (
                      <td key={columns[index]} className={cell.missing ? 'missing' : ''}>
                        {cell.file === undefined ? cell.missing ? words.missing : '' : <Cell cell={cell} files={files} />}
                      </td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        </section>
      ))}
    </div>
  );
}

interface Told {
  readonly text: string;
  readonly missing?: boolean;
  readonly file?: string;
  readonly span?: { readonly start: number; readonly end: number };
}

/** Each document of a cell is a way of its own; whatever else it says leads to where it is said. */
function Cell({ cell, files }: { readonly cell: Told; readonly files: ReadonlyMap<string, string> }): ReactNode {
  const parts = cell.missing ? [words.missing] : cell.text.split(', ');
  const apart = parts.length > 1 && parts.every((part) => files.has(part));
  const way = (part: ReactNode, file: string, start: number, end?: number): ReactNode => (
    <button type="button" className="plain" onClick={() => goTo(file, start, end)}>
      {part}
    </button>
  );
  const shownParts = parts.map((part, at) => {
    const own = files.get(part) ?? '';
    const told = <span className="number">{part}</span>;
    return (
      <Fragment key={part}>
        {at === 0 ? null : ', '}
        {apart ? (own === cell.file ? way(told, own, cell.span?.start ?? 0, cell.span?.end) : way(told, own, 0)) : told}
      </Fragment>
    );
  });
  return apart ? shownParts : way(shownParts, cell.file ?? '', cell.span?.start ?? 0, cell.span?.end);
}
