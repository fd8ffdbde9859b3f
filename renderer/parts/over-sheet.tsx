/** A sheet laid over the page: a head with its title and a way out, closed by Escape. */
import type { ReactNode } from 'react';
import { closePanel } from '../state/panel.ts';
import { words } from '../words/words.ts';

export function OverSheet({ title, children }: { readonly title: ReactNode; readonly children: ReactNode }): ReactNode {
  const name = typeof title === 'string' ? title : undefined;
  return (
    <section className="over" role="dialog" aria-label={name ?? words.sheet} onKeyDown={(event) => event.key === 'Escape' && closePanel()}>
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
