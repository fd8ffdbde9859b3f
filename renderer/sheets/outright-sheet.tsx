/** A reading said outright for a step that was not understood: chosen from what can be said, with a reason and initials. */
import { type ReactNode, useState } from 'react';
import { focus } from '../parts/focus.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { PersonFields } from '../parts/person-fields.tsx';
import { useAnswer } from '../state/answer.ts';
import { closePanel, panel } from '../state/panel.ts';
import { person } from '../state/record.ts';
import { shown } from '../state/shown.ts';
import { applyProposed, core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

export function OutrightSheet(): ReactNode {
  const { file } = shown.usePick('file');
  const { line = 1 } = panel.use();
  const { initials } = person.use();
  const [reads, setReads] = useState('');
  const [because, setBecause] = useState('');
  const [wrong, setWrong] = useState('');
  const choices = useAnswer('readingChoices', file === undefined ? undefined : { file, line });
  const put = async (): Promise<void> => {
    if (file === undefined) return;
    const made = await core.ask('sayOutright', { file, line, said: { reads, because, by: initials } });
    if (!made.ok) return setWrong(made.reason);
    applyProposed(made.title, made.files);
    closePanel();
  };
  return (
    <OverSheet title={words.sayOutright}>
      <p className="quiet">{words.outrightMeans}</p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void put();
        }}
      >
        <div className="row">
          <label className="field">
            {words.itMeans}
            <select value={reads} onChange={(event) => setReads(event.target.value)}>
              <option value="" />
              {choices?.map((one) => (
                <option key={one}>{one}</option>
              ))}
            </select>
          </label>
          <input
            ref={focus}
            aria-label={words.because}
            placeholder={words.because}
            value={because}
            onChange={(event) => setBecause(event.target.value)}
          />
          <PersonFields />
          <button type="submit" className="main" disabled={reads === '' || because.trim() === '' || initials.trim() === ''}>
            {words.sayIt}
          </button>
        </div>
        {wrong === '' ? null : <p className="wrong">{wrong}</p>}
      </form>
    </OverSheet>
  );
}
