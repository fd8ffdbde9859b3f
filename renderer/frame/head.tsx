/** Head of the page: which library, the menus, the three views. */
import { type ReactNode, useEffect } from 'react';
import { menus } from '../actions/menus.ts';
import { UNSAVED_MARK } from '../host.ts';
import { Menu } from '../parts/menu.tsx';
import { shown } from '../state/shown.ts';
import { words } from '../words/words.ts';

const VIEWS = ['write', 'review', 'print'] as const;

export function Head(): ReactNode {
  const { view, name, unsaved } = shown.usePick('view', 'name', 'unsaved');
  useEffect(() => {
    document.title = `${unsaved.size > 0 ? `${UNSAVED_MARK} ` : ''}${name === '' ? '' : `${name} – `}Handsclear`;
    const hold = (event: BeforeUnloadEvent): void => event.preventDefault();
    if (unsaved.size > 0) addEventListener('beforeunload', hold);
    return () => removeEventListener('beforeunload', hold);
  }, [unsaved, name]);
  return (
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
  );
}
