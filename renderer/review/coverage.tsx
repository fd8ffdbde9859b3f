/** What the library covers, as tables; every cell leads to its text, and what is missing says so. */
import { Fragment, type ReactNode } from 'react';
import { useAnswer } from '../state/answer.ts';
import { goTo } from '../state/shown.ts';
import { words } from '../words/words.ts';

const NOTHING = {};

export function Coverage(): ReactNode {
  const tables = useAnswer('coverage', NOTHING);
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
                        {cell.file === undefined ? (
                          cell.missing ? (
                            words.missing
                          ) : (
                            ''
                          )
                        ) : (
                          <button
                            type="button"
                            className="plain"
                            onClick={() => goTo(cell.file ?? '', cell.span?.start ?? 0, cell.span?.end)}
                          >
                            {cell.missing
                              ? words.missing
                              : cell.text.split(', ').map((part, at) => (
                                  <Fragment key={part}>
                                    {at === 0 ? null : ', '}
                                    <span className="number">{part}</span>
                                  </Fragment>
                                ))}
                          </button>
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
  );
}
