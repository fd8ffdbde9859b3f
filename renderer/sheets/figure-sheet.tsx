/** A figure put in at the caret: one the library has, or a picture from this machine, which is copied into it. Also where dropped pictures end. */
import { type ReactNode, useEffect, useState } from 'react';
import { focus } from '../parts/focus.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { addFigure, figurePaths } from '../state/opening.ts';
import { closePanel, panel } from '../state/panel.ts';
import { goTo, say, shown } from '../state/shown.ts';
import { applyProposed, core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

export function FigureSheet(): ReactNode {
  const { file, caret } = shown.usePick('file', 'caret');
  const { dropped } = panel.use();
  const [path, setPath] = useState(figurePaths()[0] ?? '');
  const [alt, setAlt] = useState('');
  const [wrong, setWrong] = useState('');
  const [brought, setBrought] = useState<string>();
  const add = async (picture: File): Promise<void> => {
    const added = await addFigure(picture).catch((error: Error) => setWrong(error.message));
    if (!added) return;
    setPath(added);
    setBrought(added);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: a dropped picture is added once
  useEffect(() => {
    if (dropped) void add(dropped);
  }, [dropped]);
  const put = async (): Promise<void> => {
    if (file === undefined) return;
    const made = await core.ask('insertFigure', { file, offset: caret, path, alt });
    if (!made.ok) return setWrong(made.reason);
    applyProposed(made.title, made.files);
    closePanel();
    goTo(file, made.caret);
    // Undo is of texts: who takes the figure back should not think that the picture went with it.
    const stays = brought === path ? [words.pictureStays(path)] : [];
    if (made.notes.length + stays.length > 0) say([...made.notes, ...stays].join(' '));
  };
  return (
    <OverSheet title={words.figure}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void put();
        }}
      >
        <div className="row">
          <select aria-label={words.figure} value={path} onChange={(event) => setPath(event.target.value)}>
            {figurePaths().map((one) => (
              <option key={one}>{one}</option>
            ))}
          </select>
          <label className="field">
            {words.fromMachine}
            <input
              type="file"
              accept=".svg,.png,.jpg,.jpeg"
              onChange={(event) => {
                const [one] = event.target.files ?? [];
                if (one) void add(one);
              }}
            />
          </label>
        </div>
        <div className="row">
          <input
            ref={focus}
            aria-label={words.altText}
            placeholder={words.altText}
            value={alt}
            onChange={(event) => setAlt(event.target.value)}
          />
          <button type="submit" className="main" disabled={path === '' || alt.trim() === ''}>
            {words.putIn2}
          </button>
        </div>
        <p className="quiet">{words.altMeans}</p>
        {wrong === '' ? null : <p className="wrong">{wrong}</p>}
      </form>
    </OverSheet>
  );
}
