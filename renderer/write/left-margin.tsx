/** Left of the text: the computed label of each step and the energy band, hatched where the machine may be live. Who listens hears both with the notes. */
import { memo, type ReactNode } from 'react';
import type { Margin } from '../../procedures-schema/assist/index.ts';
import type { LinePlaces } from '../editor/text-sheet.tsx';
import { Hatches, hatch } from '../parts/hatches.tsx';
import { words } from '../words/words.ts';

interface Props {
  readonly margin: Margin | undefined;
  readonly places: LinePlaces;
}

/** Most keys change no label, no band and no place; then nothing of it is drawn. */
export const LeftMargin = memo(Drawn, (before, now) => before.places === now.places && looksSame(before.margin, now.margin));

const looksSame = (before: Margin | undefined, now: Margin | undefined): boolean =>
  before === now ||
  (before !== undefined &&
    before.lines.length === now?.lines.length &&
    before.lines.every((one, index) => SHOWN.every((key) => `${one[key]}` === `${now.lines[index]?.[key]}`)));

/** All that is drawn of a step here. */
const SHOWN = ['line', 'endLine', 'depth', 'section', 'beside', 'label', 'fullLabel', 'typed'] as const;

function Drawn({ margin, places }: Props): ReactNode {
  if (!margin || places.height === 0) return null;
  const steps = margin.lines.filter(({ depth }) => depth === 0);
  return (
    <>
      <svg className="band" width="18" height={places.height} aria-hidden="true">
        <title>{Object.values(words.band).join(', ')}</title>
        <Hatches />
        {steps.map((step, index) => {
          const next = steps[index + 1];
          const top = places.top(step.line);
          const end = next && next.section === step.section ? places.top(next.line) : places.bottom(step.endLine);
          return (
            <rect
              // By its place in the list: what a step begins at changes with every key above it, and all of them would be made anew.
              // biome-ignore lint/suspicious/noArrayIndexKey: see above
              key={index}
              x="4"
              y={top}
              width="10"
              height={Math.max(4, end - top)}
              fill={hatch(step.beside)}
              stroke="#6f6a5d"
              strokeWidth="0.6"
            >
              <title>{`${step.fullLabel}: ${words.band[step.beside]}`}</title>
            </rect>
          );
        })}
      </svg>
      {margin.lines.map((step, index) => (
        <div
          // biome-ignore lint/suspicious/noArrayIndexKey: as above
          key={index}
          aria-hidden="true"
          className={`label depth-${step.depth} ${step.typed.includes(step.label) ? 'label-same' : 'label-other'}`}
          style={{ top: places.top(step.line) }}
        >
          {step.label}
        </div>
      ))}
    </>
  );
}
