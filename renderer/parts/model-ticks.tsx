/** Models to tick, all those of the library. Says nothing of what they are ticked for. */
import type { ReactNode } from 'react';
import { words } from '../words/words.ts';

interface Props {
  readonly models: readonly string[];
  readonly ticked: readonly string[];
  readonly tick: (ticked: readonly string[]) => void;
}

export const ModelTicks = ({ models, ticked, tick }: Props): ReactNode => (
  <fieldset className="form-field">
    <legend>{words.model}</legend>
    <div className="row">
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
  </fieldset>
);
