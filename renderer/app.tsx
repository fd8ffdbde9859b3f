/** The page: head with menus and the three views, the view, and one line at the foot. Each part is drawn anew when what it shows is another. */
import { type ReactNode, useEffect, useRef } from 'react';
import { listenToKeys, runByName } from './actions/keys.ts';
import { pageMenus } from './actions/menus.ts';
import { Bands } from './frame/bands.tsx';
import { Foot, Told } from './frame/foot.tsx';
import { Head } from './frame/head.tsx';
import { PageState } from './frame/page-state.tsx';
import { call, onMenuAction } from './host.ts';
import { useNarrow } from './parts/room.ts';
import { PrintView } from './print/print-view.tsx';
import { WritingLine } from './print/writing-line.tsx';
import { ReviewView } from './review/review-view.tsx';
import { SHEETS } from './sheets/sheets.ts';
import { watchFields } from './state/focus.ts';
import { begin } from './state/opening.ts';
import { panel } from './state/panel.ts';
import { shown } from './state/shown.ts';
import { language } from './words/words.ts';
import { Tour } from './write/tour.tsx';
import { WriteView } from './write/write-view.tsx';

let begun = false;

export function App(): ReactNode {
  const page = useRef<HTMLDivElement>(null);
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
  return (
    <div className="page" lang={language} ref={page} data-checked={false} data-waiting={0} data-unsaved={0}>
      <PageState page={page} />
      <Head />
      <Bands />
      <View />
      <OpenSheet />
      <WritingLine />
      <Told />
      <Foot />
    </div>
  );
}

function View(): ReactNode {
  const { view } = shown.usePick('view');
  const narrow = useNarrow('below');
  if (view === 'review')
    return (
      <>
        <Tour line />
        <ReviewView />
      </>
    );
  if (view === 'print')
    return (
      <>
        <Tour line />
        <PrintView />
      </>
    );
  return (
    <>
      {narrow ? <Tour line first /> : null}
      <WriteView />
    </>
  );
}

function OpenSheet(): ReactNode {
  const { open } = panel.use();
  const Sheet = open === undefined ? undefined : SHEETS[open];
  return Sheet === undefined ? null : <Sheet />;
}
