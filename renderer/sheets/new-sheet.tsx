/** A new procedure: its title, its models, and what it begins from. The number is the next free one of the house, or the writer's own. */
import { type ReactNode, useState } from 'react';
import { ModelTicks } from '../parts/model-ticks.tsx';
import { WhatFirst } from '../parts/nothing-yet.tsx';
import { OverSheet } from '../parts/over-sheet.tsx';
import { TitleRow } from '../parts/title-row.tsx';
import { useAnswer } from '../state/answer.ts';
import { closePanel } from '../state/panel.ts';
import { today } from '../state/record.ts';
import { say, sayToDo, shown } from '../state/shown.ts';
import { change, core, show } from '../state/workspace.ts';
import { words } from '../words/words.ts';

export function NewSheet(): ReactNode {
  const { overview } = shown.usePick('overview');
  const [title, setTitle] = useState('');
  const [models, setModels] = useState<readonly string[]>([]);
  const [from, setFrom] = useState('');
  const [number, setNumber] = useState('');
  const [wrong, setWrong] = useState('');
  const given = { models, date: today(), ...(from === '' ? {} : { from }), ...(number.trim() === '' ? {} : { number }) };
  // The next free one of the machine, as soon as it is known which that is.
  const next = useAnswer('newProcedure', models.length === 0 || number !== '' ? undefined : { ...given, title: '-' });
  const make = async (): Promise<void> => {
    const made = await core.ask('newProcedure', { ...given, title });
    if (!made.ok) return setWrong(made.reason);
    change(`${words.newProcedure} ${made.number}`, [{ path: made.path, edits: [{ start: 0, end: 0, text: made.text }] }]);
    closePanel();
    show(made.path);
    (made.notes.length > 0 ? sayToDo : say)([`${made.number}: ${made.path}`, ...made.notes].join(' '));
  };
  if (overview?.models.length === 0)
    return (
      <OverSheet title={words.newProcedure}>
        <WhatFirst />
      </OverSheet>
    );
  return (
    <OverSheet title={words.newProcedure}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void make();
        }}
      >
        <TitleRow
          label={words.title}
          title={title}
          setTitle={setTitle}
          number={number}
          setNumber={setNumber}
          hint={next?.ok ? next.number : words.nextFree}
        />
        <ModelTicks machines={overview?.machines ?? []} ticked={models} tick={setModels} />
        <div className="row">
          <label className="field">
            {words.beginFrom}
            <select value={from} onChange={(event) => setFrom(event.target.value)}>
              <option value="">{words.fromNothing}</option>
              {overview?.documents
                .filter(({ kind }) => kind === 'procedure')
                .map(({ number, title: own }) => (
                  <option key={number} value={number}>
                    {number} {own}
                  </option>
                ))}
            </select>
          </label>
          <button type="submit" className="main">
            {words.makeIt}
          </button>
        </div>
        {wrong === '' ? null : <p className="wrong">{wrong}</p>}
      </form>
    </OverSheet>
  );
}
