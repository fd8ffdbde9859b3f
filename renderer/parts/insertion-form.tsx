/** A form for what is put in at the caret: its fields, the text as it will stand there, and what is left to the writer. Its fields come from outside. */
import { type ReactNode, useRef, useState } from 'react';
import type { Insertion } from '../../procedures-schema/assist/index.ts';
import { useAnswer } from '../state/answer.ts';
import { closePanel } from '../state/panel.ts';
import { goTo, sayToDo } from '../state/shown.ts';
import { applyProposed } from '../state/workspace.ts';
import { language, words } from '../words/words.ts';
import { ChangedText } from './preview.tsx';

interface Props {
  readonly file: string | undefined;
  /** As the fields stand now; undefined while it is not known. */
  readonly shown: Insertion | undefined;
  /** Asked once more when it is put in, because the text may have changed meanwhile. */
  readonly make: () => Promise<Insertion>;
  readonly ready?: boolean;
  /** What the button says where nothing new is put in. */
  readonly deed?: string;
  readonly children: ReactNode;
}

export function InsertionForm({ file, shown, make, ready = true, deed = words.putIn2, children }: Props): ReactNode {
  const [wrong, setWrong] = useState('');
  const text = useAnswer('textLanguage', {});
  // The preview stands until the next one comes, so that it does not blink at every key.
  const last = useRef<Insertion>(undefined);
  if (shown !== undefined) last.current = shown;
  const now = last.current;
  const put = async (): Promise<void> => {
    if (file === undefined) return;
    const made = await make();
    if (!made.ok) return setWrong(made.reason);
    applyProposed(made.title, made.files);
    closePanel();
    goTo(file, made.caret);
    if (made.notes.length > 0) sayToDo(made.notes.join(' '));
  };
  return (
    <form
      className="insertion"
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) void put();
      }}
    >
      {children}
      {text === undefined || text.language === language ? null : (
        <p className="quiet">{words.textReadIn(words.languageNames[text.language] ?? text.language)}</p>
      )}
      <h3>{words.willStand}</h3>
      {now === undefined ? null : now.ok ? (
        <>
          <div className="preview">
            {now.files.map((own) => (
              <ChangedText key={own.file} lines={own.lines} />
            ))}
          </div>
          {now.notes.map((note) => (
            <p key={note} className="quiet">
              {note}
            </p>
          ))}
        </>
      ) : (
        <p className="quiet">{now.reason}</p>
      )}
      <button type="submit" className="main" disabled={!ready}>
        {deed}
      </button>
      {wrong === '' ? null : (
        <p className="wrong" role="alert">
          {wrong}
        </p>
      )}
    </form>
  );
}
