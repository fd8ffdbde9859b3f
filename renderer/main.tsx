/** Where the page begins: what the user has set is read first, because it decides the language of every word. */
import { createRoot } from 'react-dom/client';
import './worker/first-worker.ts';
import { readSettings } from './state/settings.ts';
import './styles/page.css';
import './styles/review.css';

await readSettings();
const { App } = await import('./app.tsx');
createRoot(document.getElementById('page') as HTMLElement).render(<App />);
