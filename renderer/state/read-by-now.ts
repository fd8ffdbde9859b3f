/** Whether a line that says what was done was read by now. Pure; who takes it away is `shown.ts`. */

/** Milliseconds in which a line is noticed, and a letter of it read. */
const [NOTICED, LETTER] = [4000, 60];

export interface SaidLine {
  readonly text: string;
  readonly wrong: boolean;
  /** There when something can be done about it. */
  readonly offer?: unknown;
}

/** `since`: milliseconds. What went wrong, and what is offered, stands until something else is said. */
export const isRead = ({ text, wrong, offer }: SaidLine, since: number): boolean =>
  !wrong && offer === undefined && since >= NOTICED + LETTER * text.length;
