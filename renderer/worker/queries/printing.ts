/** The questions that want the printer. Fetched when the text has been checked: letters, breaks and the PDF writer are half of what the worker runs. */
import { blocking, checklist, pages, pdf, proof } from './pages.ts';

export const printing = { pages, proof, pdf, checklist, blocking };
