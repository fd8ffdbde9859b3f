/** A notice put in at the caret: one of the library's standing notices, or what endangers, what it does to people and how it is avoided. */
import { type ReactNode, useState } from 'react';
import type { NoticeInput } from '../../procedures-schema/assist/index.ts';
import { focus } from '../parts/focus.ts';
import { InsertionForm } from '../parts/insertion-form.tsx';
import { OverSheet } from '../parts/over-sheet.tsx';
import { useAnswer } from '../state/answer.ts';
import { panel } from '../state/panel.ts';
import { shown } from '../state/shown.ts';
import { core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

const WORDS = ['danger', 'warning', 'caution', 'notice'] as const;
const PARTS = ['hazard', 'harm', 'avoid'] as const;

export function NoticeSheet(): ReactNode {
  const { file, caret } = shown.usePick('file', 'caret');
  const [word, setWord] = useState<NoticeInput['word']>(panel.get().word ?? 'danger');
  const [use, setUse] = useState('');
  const [parts, setParts] = useState({ hazard: '', harm: '', avoid: '' });
  const standing = useAnswer('standingNotices', {}) ?? [];
  const input: NoticeInput = use === '' ? { word, ...parts } : { word, use };
  const ask = file === undefined ? undefined : { file, offset: caret, input };
  const made = useAnswer('insertNotice', ask);
  return (
    <OverSheet title={words.noticeForm}>
      <InsertionForm
        file={file}
        shown={made}
        make={() => core.ask('insertNotice', { file: file ?? '', offset: caret, input })}
        ready={use !== '' || PARTS.some((part) => parts[part].trim() !== '')}
      >
        <div className="row">
          <label className="field">
            {words.noticeWords}
            <select value={use} onChange={(event) => setUse(event.target.value)}>
              <option value="">{words.ownWords}</option>
              {standing.map(({ name, word: own }) => (
                <option key={name} value={name}>
                  {name} ({words[own]})
                </option>
              ))}
            </select>
          </label>
          {use === '' ? (
            <label className="field">
              {words.signalWord}
              <select value={word} onChange={(event) => setWord(event.target.value as NoticeInput['word'])}>
                {WORDS.map((own) => (
                  <option key={own} value={own}>
                    {words[own]}
                  </option>
                ))}
              </select>
            </label>
          ) : null}
        </div>
        {use === ''
          ? PARTS.map((part) => (
              <div key={part} className="row">
                <label className="field stretched aligned">
                  {words.noticeParts[part]}
                  <input
                    ref={part === 'hazard' ? focus : null}
                    value={parts[part]}
                    onChange={(event) => setParts({ ...parts, [part]: event.target.value })}
                  />
                </label>
              </div>
            ))
          : null}
      </InsertionForm>
    </OverSheet>
  );
}
