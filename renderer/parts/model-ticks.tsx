/** Models to tick, all those of the library under their machine; its name ticks all of them. Says nothing of what they are ticked for. */
import type { ReactNode } from 'react';
import { words } from '../words/words.ts';
import type { Overview } from '../worker/queries/queries.ts';

interface Props {
  readonly machines: Overview['machines'];
  readonly ticked: readonly string[];
  readonly tick: (ticked: readonly string[]) => void;
}

export const ModelTicks = ({ machines, ticked, tick }: Props): ReactNode => (
  <fieldset className="form-field">
    <legend>{words.models}</legend>
    <div className="model-ticks">
      {machines.map(({ family, models }) => {
        const rest = ticked.filter((one) => !models.includes(one));
        const all = models.every((one) => ticked.includes(one));
        return (
          <div key={family} className="row">
            <button type="button" className="plain" aria-pressed={all} onClick={() => tick(all ? rest : [...rest, ...models])}>
              {family}
            </button>
            {models.map((name) => (
              <label key={name} className="tick">
                <input
                  type="checkbox"
                  checked={ticked.includes(name)}
                  onChange={({ target }) => tick(target.checked ? [...ticked, name] : ticked.filter((one) => one !== name))}
                />{' '}
                {name}
              </label>
            ))}
          </div>
        );
      })}
    </div>
  </fieldset>
);
