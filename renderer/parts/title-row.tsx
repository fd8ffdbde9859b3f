/** What a new document begins with: its title, and its number with the next free one in its place until another is typed. */
import type { ReactNode } from 'react';
import { words } from '../words/words.ts';
import { focus } from './focus.ts';

interface Props {
  /** What the title is of, in words. */
  readonly label: string;
  readonly title: string;
  readonly setTitle: (title: string) => void;
  readonly number: string;
  readonly setNumber: (number: string) => void;
  /** Shown while no number is typed. */
  readonly hint?: string;
}

export function TitleRow({ label, title, setTitle, number, setNumber, hint }: Props): ReactNode {
  return (
    <div className="row">
      <input ref={focus} aria-label={label} placeholder={label} value={title} onChange={({ target }) => setTitle(target.value)} />
      <label className="field">
        {words.documentNumber} <input size={12} placeholder={hint} value={number} onChange={({ target }) => setNumber(target.value)} />
      </label>
    </div>
  );
}
