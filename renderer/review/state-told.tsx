/** The required state of the machine as a small table: each source, and what is open, out, loose or put in. */
import type { ReactNode } from 'react';
import type { ShownBand, ToldState } from '../../procedures-schema/index.ts';
import { Swatch } from '../parts/hatches.tsx';
import { words } from '../words/words.ts';

/** The pattern that stands beside the steps for it: what is only cut off is not half way to an open hand. */
const BANDS = {
  live: 'live',
  isolated: 'cut',
  locked: 'cut',
  'let out or held': 'cut',
  'proved dead': 'safe',
} as const satisfies Record<ToldState['sources'][number]['state'], ShownBand>;

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
        {state.sources.map(({ name, state: own }, index) => (
          <tr key={name} className={own === 'live' ? 'is-live' : ''}>
            <th scope="row">{name}</th>
            <td>
              <Swatch state={BANDS[own]} first={index === 0} /> {words.sourceState[own]}
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
