/** A sheet laid over the page: a head with its title and a way out, closed by Escape. It has the keys as long as no field of it has them. */
import { type ReactNode, useEffect, useRef } from 'react';
import { closePanel } from '../state/panel.ts';
import { words } from '../words/words.ts';

export function OverSheet({ title, children }: { readonly title: ReactNode; readonly children: ReactNode }): ReactNode {
  const name = typeof title === 'string' ? title : undefined;
  const own = useRef<HTMLElement>(null);
  useEffect(() => {
    // Else what is typed next would go into the text beneath.
    if (!own.current?.contains(document.activeElement)) own.current?.focus();
    // A button that is gone after it was pressed leaves the keys to nobody.
    const hear = (event: KeyboardEvent): void => {
      if (event.key === 'Escape' && event.target === document.body) closePanel();
    };
    addEventListener('keydown', hear);
    return () => removeEventListener('keydown', hear);
  }, []);
  return (
    <section
      ref={own}
      tabIndex={-1}
      className="over"
      role="dialog"
      aria-label={name ?? words.sheet}
      onKeyDown={(event) => event.key === 'Escape' && closePanel()}
    >
      <header>
        <h2>{title}</h2>
        <button type="button" onClick={closePanel}>
          {words.close}
        </button>
      </header>
      {children}
    </section>
  );
}
