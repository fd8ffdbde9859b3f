/** A checklist as the text of its file: two spaces a level, keys in the order of the form, one line end at the end. */
import type { Checklist } from './model.ts';

export const writeChecklist = (checklist: Checklist): string => `${JSON.stringify(checklist, undefined, 2)}\n`;
