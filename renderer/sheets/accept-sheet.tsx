/** Readings at the caret to be accepted by somebody who has not said yet who they are: what was read, and whose initials it carries. */
import { type ReactNode, useEffect, useRef } from 'react';
import { OverSheet } from '../parts/over-sheet.tsx';
import { PersonFields } from '../parts/person-fields.tsx';
import { useAnswer } from '../state/answer.ts';
import { accept } from '../state/margin-deeds.ts';
import { closePanel } from '../state/panel.ts';
import { person, useReview } from '../state/record.ts';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { toAcceptAt } from '../write/at-caret.ts';

export function AcceptSheet(): ReactNode {
  const { file, caret } = shown.usePick('file', 'caret');
  const { initials } = person.use();
  const review = useReview(file);
  const accepted = review?.record.accepted.map(({ key }) => key) ?? [];
  const margin = useAnswer('margin', file === undefined ? undefined : { file, accepted });
  const form = useRef<HTMLFormElement>(null);
  const { step, readings } = (margin && toAcceptAt(margin, caret)) ?? { step: undefined, readings: [] };
  const there = readings.length > 0;
  useEffect(() => {
    if (there) form.current?.querySelector('input')?.focus();
  }, [there]);
  return (
    <OverSheet title={words.acceptReading}>
      <form
        ref={form}
        onSubmit={(event) => {
          event.preventDefault();
          if (!review || initials.trim() === '') return;
          closePanel();
          accept(readings, review);
        }}
      >
        <ul>
          {readings.map(({ key, text, words: read }) => (
            <li key={key}>
              <b>{step?.label}</b> <q>{text}</q> = {read.join('; ')}
            </li>
          ))}
        </ul>
        <p className="quiet">{words.wantsInitials}</p>
        <div className="row">
          <PersonFields />
          <button type="submit" className="main" disabled={initials.trim() === '' || !there}>
            {words.accept}
          </button>
        </div>
      </form>
    </OverSheet>
  );
}
