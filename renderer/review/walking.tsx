/** A walk made as a technician makes it: choose procedure and variant, answer what is asked, see the required state after each step. */
import { type ReactNode, useRef } from 'react';
import type { Waited } from '../../procedures-schema/review/index.ts';
import { DocumentChoice, useProcedure } from '../parts/document-choice.tsx';
import { entryKeys, tabbed } from '../parts/entry-keys.ts';
import { Place } from '../parts/place.tsx';
import { WalkAnswers } from '../parts/walk-answers.tsx';
import { useAnswer } from '../state/answer.ts';
import { useKept } from '../state/kept-state.ts';
import { goTo } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { RemarkHere } from './remark-here.tsx';
import { StateTold } from './state-told.tsx';

/** An answer's words begin a line here. */
const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** Of a wait, or of all so far. */
const waitWords = ({ time, open }: Waited): string => (open ? words.waitOpen(time) : time === '' ? words.noWait : words.waitFor(time));

interface Walked {
  readonly file: string | undefined;
  readonly variant: string | undefined;
  readonly answers: readonly boolean[];
  /** The step looked at; undefined: the last. */
  readonly at: number | undefined;
}
const NOT_WALKED: Walked = { file: undefined, variant: undefined, answers: [], at: undefined };

export function Walking(): ReactNode {
  const chosen = useProcedure();
  const [kept, keep] = useKept<Walked>('walk', NOT_WALKED);
  const { variant, answers, at } = kept.file === chosen ? kept : NOT_WALKED;
  const answered = useRef(false);
  const margin = useAnswer('margin', chosen === undefined ? undefined : { file: chosen });
  const own = margin?.variants.some(({ name }) => name === variant) ? variant : margin?.variants[0]?.name;
  const walk = useAnswer('walk', chosen === undefined || own === undefined ? undefined : { file: chosen, variant: own, answers });
  const put = (change: Partial<Walked>): void => keep({ file: chosen, variant, answers, at: undefined, ...change });
  const restart = (): void => put({ answers: [] });
  const answer = (yes: boolean): void => {
    answered.current = true;
    put({ answers: [...answers, yes] });
  };
  const frame = walk?.frames[at ?? walk.frames.length - 1];
  return (
    <div className="two">
      <div className="list">
        <p className="row">
          <DocumentChoice />
          <select
            aria-label={words.variant}
            value={own ?? ''}
            onChange={(event) => {
              put({ variant: event.target.value, answers: [] });
            }}
          >
            {margin?.variants.map(({ name, verdict }) => (
              <option key={name} value={name}>
                {name}: {words[verdict]}
              </option>
            ))}
          </select>
        </p>
        <ol className="walk" onKeyDown={entryKeys}>
          {walk?.frames.map((one, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a step may be walked twice; its place in the walk is its name
            <li key={index} className={one.broken.length > 0 ? 'broken' : ''}>
              <button
                type="button"
                className="entry"
                aria-current={one === frame}
                tabIndex={tabbed(one === frame)}
                onClick={() => put({ at: index })}
                onDoubleClick={() => goTo(one.file, one.span.start, one.span.end)}
              >
                <b>
                  {one.section} {one.label}
                </b>{' '}
                {one.text} {one.wait ? <span className="quiet">({waitWords(one.wait)})</span> : null} <WalkAnswers step={one} />
                {one.broken.map((text) => (
                  <span key={text} className="wrong">
                    {' '}
                    ■ {text}
                  </span>
                ))}
              </button>
            </li>
          ))}
        </ol>
        {walk?.question ? (
          <fieldset
            key={answers.length}
            className="question"
            ref={(element) => {
              if (!element) return;
              element.scrollIntoView({ block: 'nearest' });
              // Who answered goes on from the next question; who came to the sheet is left where he is.
              if (answered.current) element.querySelector('button')?.focus();
              answered.current = false;
            }}
          >
            <legend>{sentence(walk.question.text)}</legend>
            <button type="button" className="main" onClick={() => answer(true)}>
              {words.yes}
            </button>{' '}
            <button type="button" className="main" onClick={() => answer(false)}>
              {words.no}
            </button>
          </fieldset>
        ) : null}
        {walk?.end === undefined ? null : (
          <p
            className="walk-end"
            tabIndex={-1}
            ref={(element) => {
              if (!element || !answered.current) return;
              element.focus();
              answered.current = false;
            }}
          >
            {words.walkEnd}.
          </p>
        )}
        <p className="row">
          <button type="button" aria-disabled={answers.length === 0} onClick={() => put({ answers: answers.slice(0, -1) })}>
            {words.backOne}
          </button>
          <button type="button" onClick={restart}>
            {words.again}
          </button>
        </p>
      </div>
      <div className="detail">
        {walk ? (
          <>
            <h3>{frame ? `${words.required}: ${frame.section} ${frame.label}` : words.startState}</h3>
            <StateTold state={frame?.state ?? walk.start} />
            <p>
              {words.waitedSoFar}: {frame ? waitWords(frame.waited) : words.noWait}
              {walk.time === undefined ? null : <span className="quiet"> ({words.timeGiven(walk.time)})</span>}
            </p>
            {frame ? (
              <p className="row place-row">
                <button type="button" className="plain" onClick={() => goTo(frame.file, frame.span.start, frame.span.end)}>
                  <Place file={frame.file} offset={frame.span.start} />
                </button>
                <RemarkHere file={frame.file} offset={frame.span.start} />
              </p>
            ) : null}
          </>
        ) : null}
      </div>
    </div>
  );
}
