/** All keys, from the same table that the menus are made of. */
import type { ReactNode } from 'react';
import { menus } from '../actions/menus.ts';
import { shownKeys } from '../actions/shown-keys.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { words } from '../words/words.ts';

export function KeysSheet(): ReactNode {
  return (
    <OverSheet title={words.shortcuts}>
      <table className="keys">
        <tbody>
          {menus.flatMap(({ label, actions }) =>
            actions
              .filter(({ keys }) => keys !== undefined)
              .map((action) => (
                <tr key={action.name}>
                  <td className="quiet">{label}</td>
                  <th scope="row">{action.label()}</th>
                  <td>{action.keys === undefined ? '' : shownKeys(action.keys)}</td>
                </tr>
              )),
          )}
          {words.textKeys.map(([what, keys]) => (
            <tr key={what}>
              <td className="quiet">{words.inText}</td>
              <th scope="row">{what}</th>
              <td>{keys}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </OverSheet>
  );
}
