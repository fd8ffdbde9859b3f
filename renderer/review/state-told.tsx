/** The required state of the machine as a small table: each source, and what is open, out, loose or put in. */
import type { ReactNode } from 'react';
import type { ToldState } from '../../procedures-schema/index.ts';
import { words } from '../words/words.ts';

/** From live to proved dead, told without color: what is only isolated is not half way to an open hand. */
const SIGNS = { live: '▨', isolated: '▤', locked: '◧', 'let out or held': '◧', 'proved dead': '□' } as const;

export function StateTold({ state }: { readonly state: ToldState }): ReactNode {
  const rest = [
    [words.off, state.open],
    [words.out, state.out],
    [words.loose, state.loose],
    [words.putIn, state.temporary],
  ] as const;
  return (
    <table className="state">
      <tbody>
        {state.sources.map(({ name, state: own }) => (
          <tr key={name} className={own === 'live' ? 'is-live' : ''}>
            <th scope="row">{name}</th>
            <td>
              <span aria-hidden="true">{SIGNS[own]} </span>
              {words.sourceState[own]}
            </td>
          </tr>
        ))}
        {rest
          .filter(([, names]) => names.length > 0)
          .map(([word, names]) => (
            <tr key={word}>
              <th scope="row">{word}</th>
              <td>{names.join(', ')}</td>
            </tr>
          ))}
        <tr>
          <th scope="row">{words.people}</th>
          <td>{state.peopleClear ? words.away : words.maybeThere}</td>
        </tr>
        <tr>
          <th scope="row">{words.toolsAt}</th>
          <td>{state.toolsOut ? words.away : words.maybeThere}</td>
        </tr>
      </tbody>
    </table>
  );
}
