/** All keys, from the same table that the menus are made of. */
import type { ReactNode } from 'react';
import { menus } from '../actions/menus.ts';
import { shownKeys } from '../actions/shown-keys.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { words } from '../words/words.ts';

export function KeysSheet(): ReactNode {
  const groups = [
    ...menus.map(({ label, actions }) => ({
      label,
      rows: actions.flatMap((action) => (action.keys === undefined ? [] : [[action.label(), shownKeys(action.keys)] as const])),
    })),
    { label: words.inText, rows: words.textKeys },
  ];
  return (
    <OverSheet title={words.shortcuts}>
      <table className="keys">
        {groups.map(({ label, rows }) => (
          <tbody key={label}>
            <tr>
              <th scope="rowgroup" colSpan={2} className="keys-of">
                {label}
              </th>
            </tr>
            {rows.map(([what, keys]) => (
              <tr key={what}>
                <th scope="row">{what}</th>
                <td>{keys}</td>
              </tr>
            ))}
          </tbody>
        ))}
      </table>
    </OverSheet>
  );
}
