/** Draws the page. Loaded when what the user has set is known. */
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';

export const drawPage = (place: HTMLElement): void => createRoot(place).render(<App />);
