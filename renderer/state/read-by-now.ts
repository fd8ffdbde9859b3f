/** Whether a line that says what was done was read by now. Pure; who takes it away is `shown.ts`. */

/** Milliseconds in which a line is noticed, and a letter of it read. */
const [NOTICED, LETTER] = [4000, 60];

export interface SaidLine {
  readonly text: string;
  readonly wrong: boolean;
  /** What is left to do in the text: it is worked through with the text before the eyes, not read once. */
  readonly stays?: boolean | undefined;
  /** There when something can be done about it. */
  readonly offer?: unknown;
}

/** `since`: milliseconds. What went wrong, what is offered and what is left to do stands until something else is said. */
export const isRead = ({ text, wrong, offer, stays }: SaidLine, since: number): boolean =>
  !wrong && !stays && offer === undefined && since >= NOTICED + LETTER * text.length;
