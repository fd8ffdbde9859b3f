/** Where a person was typing last, so that a menu or a panel can give the caret back and work on that place. The text says what it can do; whoever asks asks. */

/** What the text of the sheet lets others do with it. */
export interface TextHand {
  readonly focus: () => void;
  /** Puts it in place of what is marked. */
  readonly put: (text: string) => void;
  /** Takes away what was copied. */
  readonly cut: () => void;
  readonly markAll: () => void;
  /** Shows what resting the mouse at the caret would; where that is shown already, the keys go there. */
  readonly showHover: () => void;
  /** Scrolls on by so many CSS pixels, but never the line of the caret out of sight. */
  readonly scrollOn: (by: number) => void;
  /** What is marked, empty where nothing is, and where it begins. */
  readonly marked: () => { readonly text: string; readonly start: number };
}

let hand: TextHand | undefined;

/** Until the returned function is called. */
export function holdText(own: TextHand): () => void {
  hand = own;
  return () => {
    if (hand === own) hand = undefined;
  };
}

/** Undefined: no text is on the sheet. */
export const textHand = (): TextHand | undefined => hand;

export const focusText = (): void => hand?.focus();

type Field = HTMLInputElement | HTMLTextAreaElement;

const FIELDS = 'textarea, input:not([type]), input[type=text], input[type=search], input[type=number]';

let last: Field | undefined;

/** Remembers the field that was typed in last; a menu that drops open over the page takes no part in it. */
export function watchFields(): () => void {
  const hear = ({ target }: FocusEvent): void => {
    if (!(target instanceof HTMLElement) || target.closest('.menu')) return;
    last = target.matches(FIELDS) && !target.closest('.sheet-text') ? (target as Field) : undefined;
  };
  addEventListener('focusin', hear);
  return () => removeEventListener('focusin', hear);
}

/** The field that was typed in last, while it is there; undefined: it was the text, or nothing. */
export const lastField = (): Field | undefined => (last?.isConnected ? last : undefined);
