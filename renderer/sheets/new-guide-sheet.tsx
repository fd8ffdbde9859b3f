/** A new guide: number, title, models, and the procedures chosen from the library in their order. What must go with them is for the worker. */
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import type { NewGuide } from '../../procedures-schema/assist/index.ts';
import { ModelTicks } from '../parts/model-ticks.tsx';
import { OverSheet } from '../parts/over-sheet.tsx';
import { TitleRow } from '../parts/title-row.tsx';
import { useAnswer } from '../state/answer.ts';
import { closePanel } from '../state/panel.ts';
import { today } from '../state/record.ts';
import { say, sayToDo, shown } from '../state/shown.ts';
import { change, core, show } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import type { DocumentLine } from '../worker/queries/queries.ts';
import { fitting } from '../write/shelves.ts';

/** A longer list is searched, not read. */
const MOST = 40;

export function NewGuideSheet(): ReactNode {
  const { overview } = shown.usePick('overview');
  const [title, setTitle] = useState('');
  const [number, setNumber] = useState<string>();
  const [models, setModels] = useState<readonly string[]>();
  const [procedures, setProcedures] = useState<readonly string[]>([]);
  const [wrong, setWrong] = useState('');
  const given = { procedures, date: today(), ...(number === undefined ? {} : { number }), ...(models === undefined ? {} : { models }) };
  // Its number and models are known before it has a title.
  const made = useLast(useAnswer('newGuide', { ...given, title: title.trim() === '' ? '-' : title }));
  const shownModels = models ?? (made?.ok ? made.models : []);
  const make = async (): Promise<void> => {
    const own = await core.ask('newGuide', { ...given, title });
    if (!own.ok) return setWrong(own.reason);
    change(`${words.newGuide} ${own.number}`, [{ path: own.path, edits: [{ start: 0, end: 0, text: own.text }] }]);
    closePanel();
    show(own.path);
    (own.notes.length > 0 ? sayToDo : say)([`${own.number}: ${own.path}`, ...own.notes].join(' '));
  };
  return (
    <OverSheet title={words.newGuide}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void make();
        }}
      >
        <TitleRow
          label={words.guideTitle}
          title={title}
          setTitle={setTitle}
          number={number ?? (made?.ok ? made.number : '')}
          setNumber={(typed) => setNumber(typed === '' ? undefined : typed)}
        />
        {overview === undefined || overview.models.length === 0 ? null : (
          <ModelTicks machines={overview.machines} ticked={shownModels} tick={setModels} />
        )}
        <Choosing documents={overview?.documents ?? []} chosen={procedures} choose={setProcedures} made={made} />
        <button type="submit" className="main">
          {words.makeIt}
        </button>
        {wrong === '' && (made?.ok !== false || title.trim() === '') ? null : (
          <p className="wrong" role="alert">
            {made?.ok === false ? made.reason : wrong}
          </p>
        )}
      </form>
    </OverSheet>
  );
}

/** What was answered last, until the next answer is there: a list that went for a moment would take the focus with it. */
function useLast(answer: NewGuide | undefined): NewGuide | undefined {
  const last = useRef<NewGuide>(undefined);
  if (answer) last.current = answer;
  return last.current;
}

interface ChoosingProps {
  readonly documents: readonly DocumentLine[];
  readonly chosen: readonly string[];
  readonly choose: (chosen: readonly string[]) => void;
  readonly made: NewGuide | undefined;
}

function Choosing({ documents, chosen, choose, made }: ChoosingProps): ReactNode {
  const [sought, setSought] = useState('');
  const own = useRef<HTMLDivElement>(null);
  const next = useRef<string>(undefined);
  // The button that was pressed may be gone or elsewhere now; whoever has only keys goes on where they were.
  useEffect(() => {
    if (next.current === undefined) return;
    own.current?.querySelector<HTMLElement>(next.current)?.focus();
    next.current = undefined;
  });
  const then = (keys: string, choice: readonly string[]): void => {
    next.current = keys;
    choose(choice);
  };
  const procedures = useMemo(() => documents.filter(({ kind }) => kind === 'procedure'), [documents]);
  const left = procedures.filter(fitting(sought)).filter(({ number }) => !chosen.includes(number));
  if (procedures.length === 0) return <p className="quiet">{words.noProceduresToBind}</p>;
  return (
    <div className="choosing" ref={own}>
      <section aria-label={words.proceduresThere}>
        <h3>{words.proceduresThere}</h3>
        <p className="row">
          <input
            type="search"
            aria-label={words.filter}
            placeholder={words.filter}
            value={sought}
            onChange={(event) => setSought(event.target.value)}
          />
          <button type="button" disabled={left.length === 0} onClick={() => choose([...chosen, ...left.map(({ number }) => number)])}>
            {words.bindAll(left.length)}
          </button>
        </p>
        <ul className="found">
          {left.slice(0, MOST).map((one, at) => (
            <li key={one.file}>
              <button
                type="button"
                className="plain"
                onClick={() => then(`.found li:nth-child(${Math.min(at + 1, left.length - 1)}) button, input`, [...chosen, one.number])}
              >
                <span className="number">{one.number}</span> {one.title}
              </button>
            </li>
          ))}
        </ul>
        {left.length > MOST ? <p className="quiet">{words.moreOf(left.length - MOST)}</p> : null}
      </section>
      <Bound procedures={procedures} chosen={chosen} choose={then} made={made} />
    </div>
  );
}

function Bound({
  procedures,
  chosen,
  choose,
  made,
}: Omit<ChoosingProps, 'documents' | 'choose'> & {
  readonly procedures: readonly DocumentLine[];
  /** What has the focus then, and what is chosen. */
  readonly choose: (focus: string, chosen: readonly string[]) => void;
}): ReactNode {
  const titles = useMemo(() => new Map(procedures.map(({ number, title }) => [number, title])), [procedures]);
  const move = (from: number, to: number): void => {
    const next = chosen.filter((_, at) => at !== from);
    next.splice(to, 0, chosen[from] as string);
    const line = `.bound-order li:nth-child(${to + 1})`;
    choose(`${line} button:nth-child(${from > to ? 1 : 2}):enabled, ${line} button:nth-child(3)`, next);
  };
  return (
    <section aria-label={words.boundInOrder}>
      <h3>{words.boundInOrder}</h3>
      {chosen.length === 0 ? <p className="quiet">{words.nothingBound}</p> : null}
      <ol className="bound-order">
        {chosen.map((number, at) => (
          <li key={number}>
            <span className="number">{number}</span> {titles.get(number)}{' '}
            <span className="order-buttons">
              <button type="button" aria-label={words.earlierInGuide(number)} disabled={at === 0} onClick={() => move(at, at - 1)}>
                ↑
              </button>
              <button
                type="button"
                aria-label={words.laterInGuide(number)}
                disabled={at === chosen.length - 1}
                onClick={() => move(at, at + 1)}
              >
                ↓
              </button>
              <button
                type="button"
                aria-label={`${words.takeAway} ${number}`}
                onClick={() =>
                  choose(
                    `.bound-order li:nth-child(${Math.min(at + 1, chosen.length - 1)}) button:last-child, input`,
                    chosen.filter((own) => own !== number),
                  )
                }
              >
                −
              </button>
            </span>
          </li>
        ))}
      </ol>
      {made?.ok
        ? made.also.map(({ number, because }) => (
            <p key={number} className="quiet">
              {words.boundToo(number, because)}
            </p>
          ))
        : null}
    </section>
  );
}
