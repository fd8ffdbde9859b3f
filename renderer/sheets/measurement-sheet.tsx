/** A measurement put in at the caret: the step that reads it, its limits as a table by model, and what is done for each outcome. */
import { type ReactNode, useState } from 'react';
import type { MeasurementInput } from '../../procedures-schema/assist/index.ts';
import { focus } from '../parts/focus.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { closePanel } from '../state/panel.ts';
import { goTo, sayToDo, shown } from '../state/shown.ts';
import { applyProposed, core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

const SENSED = ['feel', 'sound', 'look'] as const;
const MEASURED = ['length', 'angle', 'torque', 'pressure', 'temperature', 'force', 'time', 'voltage', 'current', 'resistance'] as const;
type Kind = MeasurementInput['limits']['kind'];

export function MeasurementSheet(): ReactNode {
  const { file, caret, overview } = shown.usePick('file', 'caret', 'overview');
  const models = overview?.documents.find((one) => one.file === file)?.models ?? [];
  const [name, setName] = useState('');
  const [quantity, setQuantity] = useState('length');
  const [at, setAt] = useState('');
  const [tool, setTool] = useState('');
  const [kind, setKind] = useState<Kind>('models');
  const [one, setOne] = useState({ lower: '', upper: '' });
  const [rows, setRows] = useState<Readonly<Record<string, { lower: string; upper: string }>>>({});
  const [sensed, setSensed] = useState({ pass: '', fail: '' });
  const [wrong, setWrong] = useState('');
  const sensing = (SENSED as readonly string[]).includes(quantity);
  const shownKind: Kind = sensing ? 'sensed' : kind === 'sensed' ? 'models' : kind;
  const limits: MeasurementInput['limits'] =
    shownKind === 'sensed'
      ? { kind: 'sensed', ...sensed }
      : shownKind === 'one'
        ? { kind: 'one', ...(one.lower === '' ? {} : { lower: one.lower }), ...(one.upper === '' ? {} : { upper: one.upper }) }
        : { kind: 'models', rows: models.map((model) => ({ model, ...(rows[model] ?? { lower: '', upper: '' }) })) };
  const make = async (): Promise<void> => {
    if (file === undefined) return;
    const input = { name, quantity, limits, ...(at === '' ? {} : { at }), ...(tool === '' ? {} : { with: tool }) };
    const made = await core.ask('insertMeasurement', { file, offset: caret, input });
    if (!made.ok) return setWrong(made.reason);
    applyProposed(made.title, made.files);
    closePanel();
    goTo(file, made.caret);
    if (made.notes.length > 0) sayToDo(made.notes.join(' '));
  };
  const box = (label: string, value: string, set: (text: string) => void): ReactNode => (
    <input aria-label={label} size={12} value={value} onChange={(event) => set(event.target.value)} />
  );
  return (
    <OverSheet title={words.measurement}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void make();
        }}
      >
        <div className="row">
          <input
            ref={focus}
            aria-label={words.measured.name}
            placeholder={words.measured.name}
            value={name}
            onChange={(event) => setName(event.target.value)}
          />
          <label className="field">
            {words.measured.quantity}
            <select value={quantity} onChange={(event) => setQuantity(event.target.value)}>
              {[...MEASURED, ...SENSED].map((text) => (
                <option key={text}>{text}</option>
              ))}
            </select>
          </label>
        </div>
        <div className="row">
          <input
            aria-label={words.measured.at}
            placeholder={words.measured.at}
            value={at}
            onChange={(event) => setAt(event.target.value)}
          />
          <input
            aria-label={words.measured.with}
            placeholder={words.measured.with}
            value={tool}
            onChange={(event) => setTool(event.target.value)}
          />
        </div>
        {sensing ? null : (
          <div className="row">
            {(['models', 'one'] as const).map((own) => (
              <label key={own} className="tick">
                <input type="radio" name="limits" checked={shownKind === own} onChange={() => setKind(own)} /> {words.limitsFor[own]}
              </label>
            ))}
          </div>
        )}
        {shownKind === 'sensed' ? (
          <div className="row">
            <span className="field">
              {words.measured.pass} {box(words.measured.pass, sensed.pass, (pass) => setSensed({ ...sensed, pass }))}
            </span>
            <span className="field">
              {words.measured.fail} {box(words.measured.fail, sensed.fail, (fail) => setSensed({ ...sensed, fail }))}
            </span>
          </div>
        ) : (
          <table className="limits-form">
            <thead>
              <tr>
                <th scope="col">{words.model}</th>
                <th scope="col">{words.lower}</th>
                <th scope="col">{words.upper}</th>
              </tr>
            </thead>
            <tbody>
              {(shownKind === 'one' ? [words.allModels] : models).map((model) => {
                const own = shownKind === 'one' ? one : (rows[model] ?? { lower: '', upper: '' });
                const set = (next: { lower: string; upper: string }): void =>
                  shownKind === 'one' ? setOne(next) : setRows({ ...rows, [model]: next });
                return (
                  <tr key={model}>
                    <th scope="row">{model}</th>
                    <td>{box(`${model} ${words.lower}`, own.lower, (lower) => set({ ...own, lower }))}</td>
                    <td>{box(`${model} ${words.upper}`, own.upper, (upper) => set({ ...own, upper }))}</td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        )}
        <p className="quiet">{words.limitsHint}</p>
        <button type="submit" className="main">
          {words.putIn2}
        </button>
        {wrong === '' ? null : <p className="wrong">{wrong}</p>}
      </form>
    </OverSheet>
  );
}
