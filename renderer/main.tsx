/** Where the page begins. */
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import './styles/page.css';
import './styles/review.css';

createRoot(document.getElementById('page') as HTMLElement).render(<App />);
