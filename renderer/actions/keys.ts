/** The keys that run actions, heard before the editor sees them, so that undo is that of all files. */
import { shown } from '../state/shown.ts';
import { menus } from './menus.ts';
import { backToText } from './parts-of-page.ts';

/** An item chosen in a menu that the shell draws. */
export function runByName(name: string): void {
  const action = menus.flatMap(({ actions }) => actions).find((one) => one.name === name);
  if (action && action.when?.() !== false) void action.run();
}

/** Which keys besides letters want Shift is a matter of the keyboard; what is typed with them is the same on all. */
const combination = ({ ctrlKey, metaKey, altKey, shiftKey, key }: KeyboardEvent): string => {
  const own = key.length === 1 ? key.toUpperCase() : key;
  const shifted = shiftKey && (own.length > 1 || own !== own.toLowerCase());
  return [ctrlKey || metaKey ? 'Mod' : '', altKey ? 'Alt' : '', shifted ? 'Shift' : '', own].filter((part) => part !== '').join('+');
};

export function listenToKeys(): () => void {
  const hear = (event: KeyboardEvent): void => {
    if (event.key === 'Escape' && backToText(event.target as HTMLElement)) return event.preventDefault();
    // A letter alone is typed, one with Alt too; what has a name of its own is not.
    if (!event.ctrlKey && !event.metaKey && !(event.altKey ? event.key.length > 1 : /^F\d+$/.test(event.key))) return;
    const keys = combination(event) === 'Mod+Shift+Z' ? 'Mod+Y' : combination(event);
    const action = menus
      .flatMap(({ actions }) => actions)
      .find((one) => one.keys === keys && (one.view ?? shown.get().view) === shown.get().view);
    if (!action || action.heardThere) return;
    // Fields of forms keep their own undo.
    if ((keys === 'Mod+Z' || keys === 'Mod+Y') && (event.target as HTMLElement).matches('input, select')) return;
    event.preventDefault();
    event.stopPropagation();
    if (action.when?.() !== false) void action.run();
  };
  addEventListener('keydown', hear, true);
  return () => removeEventListener('keydown', hear, true);
}
