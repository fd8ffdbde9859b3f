/** Keys as the keyboard of the user has them printed on: "Mod+Shift+S" is Ctrl+Shift+S, Strg+Umschalt+S or Cmd+Shift+S. */
import { words } from '../words/words.ts';

const mac = /^Mac/.test(navigator.platform);

export const shownKeys = (keys: string): string =>
  keys
    .split('+')
    .map((key) => (key === 'Mod' && mac ? 'Cmd' : (words.keyNames[key] ?? key)))
    .join('+');
