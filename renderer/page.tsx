/** Draws the page. Loaded when what the user has set is known. */
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { sayRefusalsIn } from './refused.ts';
import { tellStyles } from './state/text-size.ts';
import { words } from './words/words.ts';

export function drawPage(place: HTMLElement): void {
  tellStyles();
  sayRefusalsIn(words.refusals);
  createRoot(place).render(<App />);
}
