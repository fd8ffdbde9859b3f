/** Who remarks, accepts and signs: initials, and in what part. Kept by the browser. */
import type { ReactNode } from 'react';
import { person, setPerson } from '../state/record.ts';
import { words } from '../words/words.ts';

export function PersonFields({ withPart = false }: { readonly withPart?: boolean }): ReactNode {
  const { initials, as } = person.use();
  return (
    <>
      <label className="field">
        {words.initials}
        <input size={6} value={initials} onChange={(event) => setPerson(event.target.value)} />
      </label>
      {withPart ? (
        <label className="field">
          {words.signsAs}
          <input list="parts-played" size={16} value={as} onChange={(event) => setPerson(initials, event.target.value)} />
          <datalist id="parts-played">
            {words.signParts.map((part) => (
              <option key={part} value={part} />
            ))}
          </datalist>
        </label>
      ) : null}
    </>
  );
}
