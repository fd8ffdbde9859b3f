/** A step with branches put in at the caret, or branches under the step that stands there; a measurement brings the outcomes that must be answered. */
import { type ReactNode, useState } from 'react';
import type { Branch } from '../../procedures-schema/assist/index.ts';
import { focus } from '../parts/focus.ts';
import { InsertionForm } from '../parts/insertion-form.tsx';
import { OverSheet } from '../parts/over-sheet.tsx';
import { useAnswer } from '../state/answer.ts';
import { shown } from '../state/shown.ts';
import { core } from '../state/workspace.ts';
import { language, words } from '../words/words.ts';

const EMPTY: Branch = { when: '', does: '' };

export function BranchesSheet(): ReactNode {
  const { file, caret } = shown.usePick('file', 'caret');
  const [anew, setAnew] = useState(true);
  const [on, setOn] = useState('');
  const [step, setStep] = useState('');
  const [branches, setBranches] = useState<readonly Branch[]>([EMPTY, EMPTY]);
  const choices = useAnswer('branchChoices', file === undefined ? undefined : { file }) ?? [];
  const text = useAnswer('textLanguage', {});
  const asked = { file: file ?? '', offset: caret, branches, ...(anew ? { step } : {}) };
  const made = useAnswer('insertBranching', file === undefined ? undefined : asked);
  const take = (name: string): void => {
    setOn(name);
    const chosen = choices.find((one) => one.name === name);
    if (!chosen) return;
    setBranches(chosen.branches);
    if (step.trim() === '') setStep(`${chosen.verb} the [${name}].`);
  };
  const put = (index: number, own: Branch): void => setBranches(branches.map((one, at) => (at === index ? own : one)));
  return (
    <OverSheet title={words.branchesForm}>
      <InsertionForm
        file={file}
        shown={made}
        make={() => core.ask('insertBranching', asked)}
        ready={(!anew || step.trim() !== '') && branches.some(({ when, does }) => when.trim() !== '' && does.trim() !== '')}
      >
        <div className="row">
          {([true, false] as const).map((own) => (
            <label key={String(own)} className="tick">
              <input type="radio" name="branching" checked={anew === own} onChange={() => setAnew(own)} />{' '}
              {own ? words.branchesAnew : words.branchesHere}
            </label>
          ))}
          {choices.length === 0 ? null : (
            <label className="field">
              {words.branchesOn}
              <select value={on} onChange={(event) => take(event.target.value)}>
                <option value="">{words.ownWords}</option>
                {choices.map(({ name }) => (
                  <option key={name}>{name}</option>
                ))}
              </select>
            </label>
          )}
        </div>
        {anew ? (
          <div className="row">
            <label className="field stretched">
              {words.step}
              <input ref={focus} value={step} onChange={(event) => setStep(event.target.value)} />
            </label>
          </div>
        ) : null}
        {branches.map((one, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: branches have no name but their place
          <div key={index} className="branch-fields">
            <label>
              {text === undefined || text.language === language ? words.branchWhen : words.branchWhenIn(text.branch)}
              <input value={one.when} onChange={(event) => put(index, { ...one, when: event.target.value })} />
            </label>
            <label>
              {words.branchDoes}
              <input value={one.does} onChange={(event) => put(index, { ...one, does: event.target.value })} />
            </label>
          </div>
        ))}
        <button type="button" onClick={() => setBranches([...branches, EMPTY])}>
          {words.oneBranchMore}
        </button>
      </InsertionForm>
    </OverSheet>
  );
}
