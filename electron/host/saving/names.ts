/** Which paths of a library can be written on every system. Knows names only; whether a link leads out is for `inside.ts`. */

import type { Said } from '../contract/index.ts';

/** What no system, or not every one, allows in a name; a colon opens a hidden stream on Windows. */
const FORBIDDEN = '\\:<>"|?*';

/** Names that are devices on Windows, with any ending: Microsoft, "Naming Files, Paths, and Namespaces". */
const DEVICE = /^(con|prn|aux|nul|conin\$|conout\$|com[0-9¹²³]|lpt[0-9¹²³])(\..*)?$/i;

/** The shortest limit among the usual file systems, in bytes of UTF-8. */
const LONGEST_NAME = 255;
const LONGEST_PATH = 1_000;

const bytesIn = (text: string): number => new TextEncoder().encode(text).length;

/** Why a path below a library, with forward slashes, is none that every system can hold. Undefined: it is fine. */
export function unfitPath(own: string): Said | undefined {
  if (own.length > LONGEST_PATH) return ['nameLong'];
  if (/\p{Surrogate}/u.test(own)) return ['nameHalf'];
  for (const letter of own) if (letter < ' ' || letter === '\u007f' || FORBIDDEN.includes(letter)) return ['nameLetter'];
  for (const part of own.split('/')) {
    if (part === '') return ['nameSlash'];
    if (part.startsWith('.')) return ['nameDot'];
    if (/[. ]$/.test(part)) return ['nameEnd'];
    if (DEVICE.test(part)) return ['nameDevice', part];
    if (bytesIn(part) > LONGEST_NAME) return ['namePartLong'];
  }
  return undefined;
}
