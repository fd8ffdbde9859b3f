/** Buttons below one another gone through by arrows, each still reached by Tab; from a field that filters them the arrow leads in. Nothing is chosen by going there. */
import type { KeyboardEvent } from 'react';

/** For the element that holds them. */
export function listKeys(event: KeyboardEvent<HTMLElement>): void {
  const buttons = [...event.currentTarget.querySelectorAll<HTMLElement>('button:not(:disabled), input[type=search]')];
  const at = buttons.indexOf(event.target as HTMLElement);
  if (at < 0) return;
  // There these keys are the field's.
  if (event.target instanceof HTMLInputElement && event.key !== 'ArrowDown') return;
  const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: buttons.length - 1 }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  buttons[to]?.focus();
}

export const focusFirstButton = (element: HTMLElement | null): void =>
  element?.querySelector<HTMLElement>('button:not(:disabled)')?.focus();
