/**
 * Figures put in at the caret: one the library has, or pictures from this machine, which are copied into it. Also where dropped files end: each
 * picture has its own words, and what is no picture is refused by name.
 */
import { type ReactNode, useEffect, useState } from 'react';
import { focus } from '../parts/focus.ts';
import { InsertionForm } from '../parts/insertion-form.tsx';
import { OverSheet } from '../parts/over-sheet.tsx';
import { useAnswer } from '../state/answer.ts';
import { addFigure, NameTaken, tellUnused, unusedFigures } from '../state/figures.ts';
import { figureBytes, figurePaths } from '../state/other-files.ts';
import { panel } from '../state/panel.ts';
import { shown } from '../state/shown.ts';
import { core } from '../state/workspace.ts';
import { words } from '../words/words.ts';

interface Chosen {
  readonly path: string;
  readonly alt: string;
}

const TYPES: Readonly<Record<string, string>> = { svg: 'image/svg+xml', png: 'image/png', jpg: 'image/jpeg', jpeg: 'image/jpeg' };

/** Names of files are easily mistaken; what is chosen is seen. Whoever hears the page has its name in the choice beside. */
function Picture({ path }: { readonly path: string }): ReactNode {
  const bytes = figureBytes().get(path);
  const [address, setAddress] = useState('');
  useEffect(() => {
    if (bytes === undefined) return;
    const type = TYPES[path.slice(path.lastIndexOf('.') + 1).toLowerCase()] ?? '';
    const own = URL.createObjectURL(new Blob([new Uint8Array(bytes)], { type }));
    setAddress(own);
    return () => URL.revokeObjectURL(own);
  }, [bytes, path]);
  return <span className="figure-shown">{address === '' ? null : <img src={address} alt="" />}</span>;
}

export function FigureSheet(): ReactNode {
  const { file, caret } = shown.usePick('file', 'caret');
  const { dropped } = panel.use();
  const [figures, setFigures] = useState<readonly Chosen[]>(() => [
    // Until what was dropped is there nothing is chosen: if it is refused, another picture would be taken for it.
    { path: dropped ? '' : (figurePaths()[0] ?? ''), alt: '' },
  ]);
  const [refused, setRefused] = useState<readonly Error[]>([]);
  /** One after the other, so that they stand in the order in which they came. */
  const add = async (pictures: readonly File[]): Promise<void> => {
    const [added, why]: [string[], Error[]] = [[], []];
    for (const picture of pictures)
      await addFigure(picture).then(
        (path) => added.push(path),
        (error: Error) => why.push(error),
      );
    // What was refused before is over; what was chosen before stands where nothing came in its place.
    setRefused(why);
    if (added.length > 0) setFigures((before) => added.map((path, at) => ({ path, alt: before[at]?.alt ?? '' })));
  };
  /** Where nothing is chosen yet, else behind what is. */
  const addAs = ({ picture, free }: NameTaken): Promise<void> =>
    addFigure(picture, free).then(
      (path) => {
        setRefused((before) => before.filter((one) => !(one instanceof NameTaken && one.picture === picture)));
        setFigures((before) =>
          before.some((one) => one.path === '')
            ? before.map((one) => (one.path === '' ? { ...one, path } : one))
            : [...before, { path, alt: '' }],
        );
      },
      (error: Error) => setRefused((before) => [...before, error]),
    );
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was dropped is added once
  useEffect(() => {
    if (dropped) void add(dropped);
  }, [dropped]);
  // What was added and not put in: the sheet was closed, or another picture came in its place.
  useEffect(() => () => tellUnused(unusedFigures()), []);
  const put = (index: number, own: Chosen): void => setFigures(figures.map((one, at) => (at === index ? own : one)));
  const asked = { file: file ?? '', offset: caret, figures };
  const ready = figures.every(({ path, alt }) => path !== '' && alt.trim() !== '');
  const made = useAnswer('insertFigures', file === undefined || figures.some(({ path }) => path === '') ? undefined : asked);
  return (
    <OverSheet title={words.figure}>
      <InsertionForm file={file} shown={made} make={() => core.ask('insertFigures', asked)} ready={ready}>
        {figures.map(({ path, alt }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the same figure may be put in twice; its place is its name
          <div key={index} className="row figure-row">
            <Picture path={path} />
            <select aria-label={words.figure} value={path} onChange={(event) => put(index, { path: event.target.value, alt })}>
              {path === '' ? <option value="">{words.chooseFigure}</option> : null}
              {figurePaths().map((one) => (
                <option key={one}>{one}</option>
              ))}
            </select>
            <input
              ref={index === 0 ? focus : null}
              className="stretched"
              aria-label={words.altText}
              placeholder={words.altText}
              value={alt}
              onChange={(event) => put(index, { path, alt: event.target.value })}
            />
          </div>
        ))}
        <p className="quiet">{words.altMeans}</p>
        <p className="row">
          <label className="field">
            {words.fromMachine}
            <input
              type="file"
              multiple
              accept=".svg,.png,.jpg,.jpeg"
              onChange={(event) => {
                const chosen = [...(event.target.files ?? [])];
                if (chosen.length > 0) void add(chosen);
              }}
            />
          </label>
        </p>
        {refused.map((why) => (
          <p key={why.message} className="wrong" role="alert">
            {why.message}{' '}
            {why instanceof NameTaken ? (
              <button type="button" onClick={() => void addAs(why)}>
                {words.addAs(why.picture.name, why.free)}
              </button>
            ) : null}
          </p>
        ))}
      </InsertionForm>
    </OverSheet>
  );
}
