/** A menu that drops from the head of the page: buttons with their keys, closed by Escape or by leaving it. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { Action } from '../actions/action.ts';
import { shownKeys } from '../actions/shown-keys.ts';
import { focusText, textHand } from '../state/focus.ts';
import { shown } from '../state/shown.ts';

export function Menu({ label, actions }: { readonly label: string; readonly actions: readonly Action[] }): ReactNode {
  const [open, setOpen] = useState(false);
  // What can be done now depends on what there is.
  shown.usePick('view', 'file', 'overview', 'findings', 'between', 'unsaved');
  const root = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (open) root.current?.querySelector<HTMLElement>('[role=menuitem]:not(:disabled)')?.focus();
  }, [open]);
  const move = (step: number): void => {
    const items = [...(root.current?.querySelectorAll<HTMLElement>('[role=menuitem]:not(:disabled)') ?? [])];
    const at = items.indexOf(document.activeElement as HTMLElement);
    items[(at + step + items.length) % items.length]?.focus();
  };
  /** The item that had the keys is gone: unless the action took them, they go back to the text, or where there is none, to the menu. */
  const giveBack = (): void => {
    if (document.activeElement !== document.body) return;
    if (textHand()) focusText();
    else root.current?.querySelector('button')?.focus();
  };
  /** To the head of another menu; from one that is open, that one is opened. */
  const beside = (step: number): void => {
    const heads = [...document.querySelectorAll<HTMLElement>('.menu > button')];
    const at = heads.findIndex((head) => head.parentElement === root.current);
    const to = heads[(at + step + heads.length) % heads.length];
    to?.focus();
    if (open) to?.click();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys belong to the buttons inside
    <div
      className="menu"
      ref={root}
      onBlur={(event) => {
        if (!root.current?.contains(event.relatedTarget)) setOpen(false);
      }}
      onKeyDown={(event) => {
        if (event.key === 'ArrowRight' || event.key === 'ArrowLeft') {
          event.preventDefault();
          return beside(event.key === 'ArrowRight' ? 1 : -1);
        }
        if (!open) {
          if (event.key !== 'ArrowDown') return;
          event.preventDefault();
          return setOpen(true);
        }
        if (event.key === 'Escape') {
          setOpen(false);
          root.current?.querySelector('button')?.focus();
        } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
          event.preventDefault();
          move(event.key === 'ArrowDown' ? 1 : -1);
        }
      }}
    >
      <button type="button" aria-haspopup="menu" aria-expanded={open} onClick={() => setOpen(!open)}>
        {label}
      </button>
      {open ? (
        <div role="menu" aria-label={label} className="menu-items">
          {actions.map((action) => (
            <button
              key={action.name}
              type="button"
              role="menuitem"
              className={action.apart ? 'apart' : undefined}
              disabled={action.when?.() === false}
              onClick={() => {
                setOpen(false);
                void action.run();
                setTimeout(giveBack);
              }}
            >
              <span>{action.label()}</span>
              <kbd>{action.keys === undefined ? '' : shownKeys(action.keys)}</kbd>
            </button>
          ))}
        </div>
      ) : null}
    </div>
  );
}
