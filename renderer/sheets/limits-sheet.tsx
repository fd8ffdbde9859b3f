/** The table of limits at the caret as a form: what is typed here goes back into that table alone. What it means is for the worker. */
import { type ReactNode, useState } from 'react';
import { focus } from '../parts/focus.ts';
import { InsertionForm } from '../parts/insertion-form.tsx';
import { OverSheet } from '../parts/over-sheet.tsx';
import { useAnswer } from '../state/answer.ts';
import { shown } from '../state/shown.ts';
import { core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

export function LimitsSheet(): ReactNode {
  const { file, caret } = shown.usePick('file', 'caret');
  const [typed, setTyped] = useState<Readonly<Record<string, { row: number; column: number; text: string }>>>({});
  const form = useAnswer('limitsForm', file === undefined ? undefined : { file, offset: caret });
  const at = form === undefined || 'ok' in form ? undefined : form.at;
  const ask = file === undefined || at === undefined ? undefined : { file, at, typed: Object.values(typed) };
  const made = useAnswer('limitsEdits', ask);
  if (form === undefined) return <OverSheet title={words.limitsOfText}>{words.checking}</OverSheet>;
  if ('ok' in form) return <OverSheet title={words.limitsOfText}>{form.reason}</OverSheet>;
  return (
    <OverSheet title={words.limitsOf(form.measurements.join(', '))}>
      <InsertionForm
        file={file}
        shown={made}
        make={() => core.ask('limitsEdits', ask ?? { file: '', at: 0, typed: [] })}
        ready={made?.ok === true}
        deed={words.apply}
      >
        <table className="limits-form">
          <thead>
            <tr>
              <th scope="col">{words.model}</th>
              {form.columns.map(({ index, heading }) => (
                <th key={index} scope="col">
                  {heading}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {form.rows.map(({ head, cells }, row) => (
              <tr key={`${head} ${cells.join(' ')}`}>
                <th scope="row">{head}</th>
                {form.columns.map(({ index, heading }, column) => (
                  <td key={index}>
                    <input
                      ref={row === 0 && column === 0 ? focus : null}
                      aria-label={`${head} ${heading}`}
                      size={Math.max(12, (cells[column] ?? '').length)}
                      value={typed[`${row} ${column}`]?.text ?? cells[column] ?? ''}
                      onChange={({ target }) => setTyped({ ...typed, [`${row} ${column}`]: { row, column, text: target.value } })}
                    />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
        <p className="quiet">{form.where === 'table' ? words.limitsHint : words.limitsFrontHint}</p>
        {form.kept.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </InsertionForm>
    </OverSheet>
  );
}
