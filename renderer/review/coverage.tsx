/** What the library covers, as tables; every cell leads to its text, and what is missing says so. */
import { Fragment, type KeyboardEvent, type ReactNode } from 'react';
import { NothingYet } from '../parts/nothing-yet.tsx';
import { Mark } from '../parts/state-marks.tsx';
import { useAnswer } from '../state/answer.ts';
import { goTo, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';

const NOTHING = {};

export function Coverage(): ReactNode {
  const tables = useAnswer('coverage', NOTHING);
  const { overview } = shown.usePick('overview');
  const files = new Map((overview?.documents ?? []).map(({ number, file }) => [number, file]));
  if (!tables) return <p className="quiet">{words.checking}</p>;
  if (tables.length === 0) return <NothingYet of="coverage" />;
  return (
    <div className="coverage">
      {[...new Set(tables.map(({ id }) => id))].map((own) => (
        <Fragment key={own}>
          <h2>{words[own]}</h2>
          <div className="tables">
            {tables
              .filter(({ id }) => id === own)
              .map(({ id, family, columns, rows }) => (
                <section key={`${id} ${family}`}>
                  <h3>{family}</h3>
                  {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table is scrolled from the keyboard too */}
                  <section className="wide" tabIndex={0} aria-label={`${words[id]}, ${family}`}>
                    <table onKeyDown={cellKeys}>
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
                        {rows.map(({ name, cells }, row) => (
                          <tr key={name}>
                            <th scope="row">{name}</th>
                            {cells.map((cell, index) => (
                              <td
                                key={columns[index]}
                                className={cell.missing ? 'missing' : id === 'procedures' ? verdictClass(cell.text) : ''}
                              >
                                {cell.file === undefined ? (
                                  cell.missing ? (
                                    words.missing
                                  ) : (
                                    // Not for this model: nothing is missing, and nothing is still to come.
                                    <span className="quiet">–</span>
                                  )
                                ) : (
                                  <Cell
                                    cell={cell}
                                    files={files}
                                    first={rows.slice(0, row).every(silent) && cells.slice(0, index).every((one) => one.file === undefined)}
                                  />
                                )}
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
        </Fragment>
      ))}
    </div>
  );
}

type Verdict = 'proved' | 'refuted' | 'not proved';
const isVerdict = (text: string): text is Verdict => text === 'proved' || text === 'refuted' || text === 'not proved';

/** What is refuted must not be looked for among what is proved. */
const verdictClass = (text: string): string => (isVerdict(text) ? `cell-${text.replace(' ', '-')}` : '');

interface Told {
  readonly text: string;
  readonly missing?: boolean;
  readonly file?: string;
  readonly span?: { readonly start: number; readonly end: number };
}

interface CellProps {
  readonly cell: Told;
  readonly files: ReadonlyMap<string, string>;
  /** Of its table: Tab comes to it, and the arrows go on from it. */
  readonly first: boolean;
}

const silent = ({ cells }: { readonly cells: readonly Told[] }): boolean => cells.every(({ file }) => file === undefined);

/** Through a table by arrows, over cells that lead nowhere: hundreds of buttons are no way for Tab. */
function cellKeys(event: KeyboardEvent<HTMLTableElement>): void {
  const from = (event.target as Element).closest('button');
  const cell = from?.closest('td');
  if (!from || !cell) return;
  const buttons = [...event.currentTarget.querySelectorAll('button')];
  const rows = [...event.currentTarget.rows];
  const row = rows.indexOf(cell.parentElement as HTMLTableRowElement);
  const beyond = (ahead: readonly HTMLTableRowElement[]): HTMLButtonElement | undefined =>
    ahead.map((one) => one.cells[cell.cellIndex]?.querySelector('button') ?? undefined).find((one) => one !== undefined);
  const at = buttons.indexOf(from);
  const to: Readonly<Record<string, HTMLButtonElement | undefined>> = {
    ArrowRight: buttons[at + 1],
    ArrowLeft: buttons[at - 1],
    ArrowDown: beyond(rows.slice(row + 1)),
    ArrowUp: beyond(rows.slice(0, row).reverse()),
    Home: buttons[0],
    End: buttons.at(-1),
  };
  if (!(event.key in to)) return;
  event.preventDefault();
  to[event.key]?.focus();
}

/** Each document of a cell is a way of its own; whatever else it says leads to where it is said. */
function Cell({ cell, files, first }: CellProps): ReactNode {
  const parts = cell.missing ? [words.missing] : cell.text.split(', ');
  const apart = parts.length > 1 && parts.every((part) => files.has(part));
  const way = (part: ReactNode, lead: boolean, file: string, start: number, end?: number): ReactNode => (
    <button type="button" className="plain" tabIndex={lead && first ? 0 : -1} onClick={() => goTo(file, start, end)}>
      {part}
    </button>
  );
  const shownParts = parts.map((part, at) => {
    const own = files.get(part) ?? '';
    const told = isVerdict(part) ? (
      <span className="number">
        <Mark name={part} />
        {words[part]}
      </span>
    ) : (
      <span className="number">{part}</span>
    );
    return (
      <Fragment key={part}>
        {at === 0 ? null : ', '}
        {apart ? (own === cell.file ? way(told, at === 0, own, cell.span?.start ?? 0, cell.span?.end) : way(told, at === 0, own, 0)) : told}
      </Fragment>
    );
  });
  return apart ? shownParts : way(shownParts, true, cell.file ?? '', cell.span?.start ?? 0, cell.span?.end);
}
