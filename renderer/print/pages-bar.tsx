/** The line over the pages: their size, which beside which, and the way to one of them. */
import { type ReactNode, useState } from 'react';
import { say } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { ARRANGEMENTS, type Arrangement, nextStep, pageAsked, STEPS, zoomOf } from './arrange.ts';
import { arrange, GO_TO_PAGE, setZoom, viewing } from './viewing.ts';

interface Props {
  /** Printed on each page; empty where none is. */
  readonly numbers: readonly string[];
  /** Counted from nought. */
  readonly at: number;
  readonly go: (index: number) => void;
  /** Of sheets: they have no numbers, and none faces another. */
  readonly sides: boolean;
}

export function PagesBar({ numbers, at, go, sides }: Props): ReactNode {
  const { zoom, arrangement, percent } = viewing.use();
  const [typed, setTyped] = useState('');
  const [smaller, larger] = [nextStep(percent, false), nextStep(percent, true)];
  const find = (): void => {
    if (typed.trim() === '') return;
    const found = pageAsked(typed, numbers, words.leafWord, at + 1);
    if (found === undefined) return say(words.noSuchPage(typed.trim(), numbers.length), true);
    setTyped('');
    go(found);
  };
  return (
    <div className="pages-bar">
      <span className="pages-zoom">
        <button type="button" aria-label={words.smaller} disabled={smaller === undefined} onClick={() => setZoom(smaller)}>
          −
        </button>
        <select aria-label={words.pageSize} value={String(zoom)} onChange={(event) => setZoom(zoomOf(event.target.value))}>
          {(['page', 'width'] as const).map((one) => (
            <option key={one} value={one}>
              {one === zoom ? `${words.fitted[one]} (${percent} %)` : words.fitted[one]}
            </option>
          ))}
          {STEPS.map((step) => (
            <option key={step} value={String(step)}>
              {step} %
            </option>
          ))}
        </select>
        <button type="button" aria-label={words.larger} disabled={larger === undefined} onClick={() => setZoom(larger)}>
          +
        </button>
      </span>
      {sides ? null : (
        <select aria-label={words.pagesBeside} value={arrangement} onChange={(event) => arrange(event.target.value as Arrangement)}>
          {ARRANGEMENTS.map((one) => (
            <option key={one} value={one}>
              {words.arrangements[one]}
            </option>
          ))}
        </select>
      )}
      <form
        className="pages-go"
        onSubmit={(event) => {
          event.preventDefault();
          find();
        }}
      >
        <label>
          {words.goToPage}{' '}
          <input
            id={GO_TO_PAGE}
            size={9}
            title={words.goToPageSays}
            placeholder={numbers[at] || String(at + 1)}
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
          />
        </label>{' '}
        <button type="submit" disabled={typed.trim() === ''}>
          {words.goThere}
        </button>
      </form>
      <span className="quiet">{sides ? words.side(at + 1, numbers.length) : words.leaf(at + 1, numbers.length)}</span>
    </div>
  );
}
