/** Goes from one part of the page to the next by key, so that nobody tabs through a whole list to come to the notes, or through the text at all. */
import { focusText, textHand } from '../state/focus.ts';

/** In the order in which they are gone through; those that are not there or have nothing to come to are left out. */
const PARTS = [
  '.menus',
  '.band-message',
  '.tour-line',
  '.library',
  '.sub',
  '.review > :not(.sub)',
  '.settings',
  '.pages-side',
  '.sheet-head',
  '.find-strip',
  '.sheet-text',
  '.sheet-right',
  '.proof-side',
  '.writing-line',
  '.over',
  '.foot',
] as const;

const REACHED = 'button:not(:disabled), input:not(:disabled), select, textarea, summary, a[href], [tabindex="0"]';

/** Where a part is come to: what is chosen in it, else its first. */
function within(part: HTMLElement): HTMLElement | undefined {
  const all = [...part.querySelectorAll<HTMLElement>(REACHED)].filter((one) => one.offsetParent !== null && one.tabIndex >= 0);
  return all.find((one) => one.matches('.entry[aria-current=true], [aria-pressed=true]')) ?? all[0];
}

export function toPart(which: 'next' | 'previous'): void {
  const parts = PARTS.flatMap((place) => [...document.querySelectorAll<HTMLElement>(place)]).filter(
    (part) => part.matches('.sheet-text') || within(part) !== undefined,
  );
  const here = parts.findLastIndex((part) => part.contains(document.activeElement));
  // From nowhere the work itself is what most people want.
  const work = parts.findIndex((part) => part.matches('.sheet-text, .review > :not(.sub), .settings'));
  const step = which === 'next' ? 1 : -1;
  const to = here < 0 ? parts[Math.max(0, work)] : parts.at((here + step) % parts.length);
  if (to?.matches('.sheet-text')) focusText();
  else if (to) within(to)?.focus();
}

/** From what stands beside the text back into it; what a field or an open menu does with Escape comes first. */
export function backToText(target: HTMLElement): boolean {
  if (!target.closest('.library, .sheet-right, .proof-side, .views, .menus, .sheet-head')) return false;
  if (target instanceof HTMLInputElement && target.value !== '') return false;
  if (target.closest('.menu')?.querySelector('[role=menu]') || !textHand()) return false;
  focusText();
  return true;
}

export const toMenus = (): void => document.querySelector<HTMLElement>('.menus button')?.focus();
