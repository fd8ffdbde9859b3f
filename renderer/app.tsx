/** The page: head with menus and the three views, the view, and one line at the foot. */
import { type ReactNode, useEffect, useState } from 'react';
import type { Finding } from '../procedures-schema/index.ts';
import { listenToKeys, runByName } from './actions/keys.ts';
import { menus, pageMenus } from './actions/menus.ts';
import { call, onMenuAction, UNSAVED_MARK } from './host.ts';
import { ClashBand } from './parts/clash-band.tsx';
import { allFindings, findingsOf, gradeOf } from './parts/findings.tsx';
import { Menu } from './parts/menu.tsx';
import { nameOf } from './parts/place.tsx';
import { useNarrow } from './parts/room.ts';
import { UnreadBand } from './parts/unread-band.tsx';
import { PrintView } from './print/print-view.tsx';
import { WritingLine } from './print/writing-line.tsx';
import { ReviewView } from './review/review-view.tsx';
import { reviewing } from './review/reviewing.ts';
import { SHEETS } from './sheets/sheets.ts';
import { watchFields } from './state/focus.ts';
import { begin, setLanguage } from './state/opening.ts';
import { panel } from './state/panel.ts';
import { dropRecovered, takeRecovered } from './state/saving.ts';
import { shown } from './state/shown.ts';
import { language, languages, words } from './words/words.ts';
import { Tour } from './write/tour.tsx';
import { WriteView } from './write/write-view.tsx';

const VIEWS = ['write', 'review', 'print'] as const;
let begun = false;

export function App(): ReactNode {
  const { view, name, checking, waiting, due, revision, message, told, clashes, recovered, unsaved } = shown.usePick(
    'view',
    'name',
    'checking',
    'waiting',
    'due',
    'revision',
    'message',
    'told',
    'clashes',
    'recovered',
    'unsaved',
  );
  const { open } = panel.use();
  const narrow = useNarrow('below');
  const Sheet = open === undefined ? undefined : SHEETS[open];
  useEffect(() => {
    if (!begun) void begin();
    begun = true;
    void call('menu.set', { menus: pageMenus() }).catch(() => undefined);
    const stopMenu = onMenuAction(runByName);
    const stopKeys = listenToKeys();
    const stopFields = watchFields();
    return () => {
      stopFields();
      stopMenu();
      stopKeys();
    };
  }, []);
  useEffect(() => {
    document.title = `${unsaved.size > 0 ? `${UNSAVED_MARK} ` : ''}${name === '' ? '' : `${name} – `}Handsclear`;
    const hold = (event: BeforeUnloadEvent): void => event.preventDefault();
    if (unsaved.size > 0) addEventListener('beforeunload', hold);
    return () => removeEventListener('beforeunload', hold);
  }, [unsaved, name]);
  return (
    <div
      className="page"
      lang={language}
      data-checked={!checking && revision > 0}
      data-waiting={waiting + (due ? 1 : 0)}
      data-unsaved={unsaved.size}
    >
      <header className="head">
        <p className="mark">Handsclear</p>
        <p className="where" title={name}>
          {name}
        </p>
        <div className="menus">
          {menus.map((menu) => (
            <Menu key={menu.label} label={menu.label} actions={menu.actions} />
          ))}
        </div>
        {/* After the menus: what comes with the first key must not push them from under the mouse. */}
        {unsaved.size > 0 ? <p className="where">{words.textsUnsaved(unsaved.size)}</p> : null}
        <nav className="views" aria-label={words.views}>
          {VIEWS.map((one) => (
            <button key={one} type="button" aria-current={view === one ? 'page' : undefined} onClick={() => shown.set({ view: one })}>
              {words[one]}
            </button>
          ))}
        </nav>
      </header>
      {recovered.length > 0 ? (
        <div className="band-message" role="alert">
          {words.recovered(recovered.length)} <span className="quiet">{recovered.map(({ path }) => nameOf(path)).join(', ')}</span>{' '}
          <button type="button" className="main" onClick={takeRecovered}>
            {words.takeBack}
          </button>{' '}
          <button type="button" onClick={() => void dropRecovered()}>
            {words.leaveIt}
          </button>
        </div>
      ) : null}
      <UnreadBand />
      {clashes.map((clash) => (
        <ClashBand key={clash.path} clash={clash} />
      ))}
      {view === 'write' ? narrow ? <Tour line first /> : null : <Tour line />}
      {view === 'write' ? <WriteView /> : view === 'review' ? <ReviewView /> : <PrintView />}
      {Sheet === undefined ? null : <Sheet />}
      <WritingLine />
      <p className="heard" aria-live="polite">
        {told === undefined ? null : <span key={told.count}>{told.text}</span>}
      </p>
      <footer className="foot">
        <Counts />
        <p className={message?.wrong ? 'wrong' : ''} role="status">
          {message === undefined ? null : <span key={message.count}>{message.text}</span>}
          {message?.offer ? (
            <>
              {' '}
              <button type="button" onClick={message.offer.run}>
                {message.offer.label}
              </button>
            </>
          ) : null}
        </p>
        <p className="quiet">{waiting > 0 ? words.stillReading(waiting) : checking ? words.checking : ''}</p>
        <p className="cautions">{words.cautions}</p>
        <select aria-label="Language" value={language} onChange={(event) => void setLanguage(event.target.value)}>
          {languages.map((code) => (
            <option key={code} value={code}>
              {new Intl.DisplayNames([code], { type: 'language' }).of(code)}
            </option>
          ))}
        </select>
      </footer>
    </div>
  );
}

function Counts(): ReactNode {
  shown.usePick('findings', 'between');
  const findings = allFindings();
  return (
    <>
      <p className={`counts state-${gradeOf(findings)}`}>
        <button
          type="button"
          className="plain"
          onClick={() => {
            reviewing.set({ sheet: 'findings' });
            shown.set({ view: 'review' });
          }}
        >
          {counted(findings)}
        </button>
      </p>
      <HeardCounts />
    </>
  );
}

function counted(findings: readonly Finding[]): string {
  const count = (severity: string): number => findings.filter((one) => one.severity === severity).length;
  return `${words.errors(count('error'))}, ${words.warnings(count('warning'))}, ${words.advice(count('advice'))}`;
}

/** Milliseconds without a key after which whoever listens is told. */
const REST = 1500;

/** What others see grow in the margin: how much was found in the open text, said when it has become another number and the hands rest. */
function HeardCounts(): ReactNode {
  const { file, checking } = shown.usePick('file', 'checking', 'findings', 'between');
  const [heard, setHeard] = useState('');
  const now = file === undefined ? '' : counted(findingsOf(file));
  useEffect(() => {
    if (checking) return;
    const timer = setTimeout(() => setHeard(now), REST);
    return () => clearTimeout(timer);
  }, [now, checking]);
  return (
    <span className="heard" aria-live="polite">
      {heard}
    </span>
  );
}
