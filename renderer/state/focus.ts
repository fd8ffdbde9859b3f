/** Gives the caret back to the text when a panel over it closes. The sheet says how; whoever closes asks. */
let giver = (): void => undefined;

export function onFocusText(give: () => void): void {
  giver = give;
}

export const focusText = (): void => giver();
