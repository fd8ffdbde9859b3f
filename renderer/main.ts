/**
 * Where the page begins. Everything that takes long is begun at once and side by side: the worker, the editor component, the library from the host. What
 * the user has set is waited for before the page's own code is there, because it decides the language of every word.
 */
import { askAhead } from './state/ahead.ts';
import { readSettings } from './state/settings.ts';
import './styles/page.css';
import './styles/review.css';
import './styles/find.css';
import './styles/ticks.css';
import './styles/narrow.css';

askAhead();
void import('./editor/component.ts');
await readSettings();
const { drawPage } = await import('./page.tsx');
drawPage(document.getElementById('page') as HTMLElement);
