/**
 * Places where a line may end, after UAX #14 (Unicode line breaking). Most text is plain words with single spaces, and of such text the rules say: after
 * every space, nowhere else. That is told here without the library, which looks at every letter; all other text is the library's.
 */
import LineBreaker from 'linebreak';

const SPACE = 32;

const isWordLetter = (code: number): boolean => (code >= 97 && code <= 122) || (code >= 65 && code <= 90) || (code >= 48 && code <= 57);
/** Full stop, comma, colon, semicolon (class IS): never parted from what stands before them, nor from a letter or figure after them. */
const isStop = (code: number): boolean => code === 46 || code === 44 || code === 58 || code === 59;

/** Words of letters, figures and stops with single spaces between them; round brackets only at the outside of a word, an apostrophe only inside. */
export function isPlainText(text: string): boolean {
  const { length } = text;
  let before = SPACE;
  for (let at = 0; at < length; at += 1) {
    const code = text.charCodeAt(at);
    if (isWordLetter(code)) {
      // Nothing but a stop may follow a closing bracket.
      if (before === 41) return false;
    } else if (code === SPACE) {
      if (before === SPACE || before === 40) return false;
    } else if (isStop(code)) {
      if (before === SPACE || before === 40) return false;
    } else if (code === 40) {
      if (before !== SPACE) return false;
    } else if (code === 41) {
      if (!isWordLetter(before) && !isStop(before)) return false;
    } else if (code === 0x2019) {
      if (!isWordLetter(before) || !isWordLetter(text.charCodeAt(at + 1))) return false;
    } else return false;
    before = code;
  }
  return before !== SPACE && before !== 40;
}

/** Calls `found` with each place in order, the end of the text last; a text of nothing has none. */
export function breakPlaces(text: string, found: (at: number) => void): void {
  if (text.length === 0) return;
  if (isPlainText(text)) {
    for (let at = text.indexOf(' '); at >= 0; at = text.indexOf(' ', at + 1)) found(at + 1);
    found(text.length);
    return;
  }
  const breaker = new LineBreaker(text);
  for (let next = breaker.nextBreak(); next !== null; next = breaker.nextBreak()) found(next.position);
}
