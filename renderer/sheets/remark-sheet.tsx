/** A remark on what the caret stands in: a step, or a line of a guide. */
import { type ReactNode, useState } from 'react';
import { focus } from '../parts/focus.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { PersonFields } from '../parts/person-fields.tsx';
import { useAnswer } from '../state/answer.ts';
import { closePanel, panel } from '../state/panel.ts';
import { person, putRecord, today, useReview } from '../state/record.ts';
import { say, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';

export function RemarkSheet(): ReactNode {
  const here = shown.usePick('file', 'caret');
  const { at } = panel.use();
  const file = at?.file ?? here.file;
  const offset = at?.offset ?? here.caret;
  const { initials } = person.use();
  const [says, setSays] = useState('');
  const review = useReview(file);
  const line = useAnswer('pinLine', file === undefined ? undefined : { file, offset });
  if (!review || !line) return <OverSheet title={words.remarkOn}>{words.nothingToRemark}</OverSheet>;
  return (
    <OverSheet title={words.remarkOn}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          const remark = { words: line.words, label: line.label, by: initials, on: today(), says, answers: [] };
          if (putRecord(words.remark, review, (record) => ({ ...record, remarks: [...record.remarks, remark] }))) {
            closePanel();
            // In Write it comes into sight beside its line.
            if (at) say(words.remarkedOn(`${review.number} ${line.label}`.trim()));
          }
        }}
      >
        <p>
          <b>{line.label === '' ? words.foreword : line.label}</b> <q>{line.words}</q>
        </p>
        <div className="row">
          <input
            ref={focus}
            className="whole-row"
            aria-label={words.remarkSays}
            placeholder={words.remarkSays}
            value={says}
            onChange={(event) => setSays(event.target.value)}
          />
          <PersonFields />
          <button type="submit" className="main" disabled={says.trim() === '' || initials.trim() === '' || review.faults.length > 0}>
            {words.remark}
          </button>
        </div>
        {review.faults.map((text) => (
          <p key={text} className="wrong">
            {review.path}: {text}
          </p>
        ))}
      </form>
    </OverSheet>
  );
}
