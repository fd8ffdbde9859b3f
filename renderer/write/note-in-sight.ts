/** Brings the note of the finding at the caret into sight: notes give way downwards, and among many it may stand below the sheet. */
import { textHand } from '../state/focus.ts';

/** CSS pixels below the note. */
const AIR = 8;

/** When the caret is there, the note is drawn whole, and its place is known. */
export function bringNoteInSight(): void {
  requestAnimationFrame(() => requestAnimationFrame(bring));
}

function bring(): void {
  const note = document.querySelector('.note-here');
  const side = note?.closest('.sheet-right');
  if (!note || !side) return;
  if (getComputedStyle(side).overflowY === 'auto') return note.scrollIntoView({ block: 'nearest' });
  const over = note.getBoundingClientRect().bottom + AIR - side.getBoundingClientRect().bottom;
  if (over > 0) textHand()?.scrollOn(over);
}
