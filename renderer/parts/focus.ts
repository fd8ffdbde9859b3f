/** Puts the caret into the field that a panel was opened for. */
export const focus = (element: HTMLElement | null): void => element?.focus();
