/** Draws the page. Loaded when what the user has set is known. */
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { tellStyles } from './state/text-size.ts';

export function drawPage(place: HTMLElement): void {
  tellStyles();
  createRoot(place).render(<App />);
}
