/** What a page is called on the screen: by the number that is printed on it, so that paper and screen say the same, and by which leaf of all it is. */
import { words } from '../words/words.ts';

/** `number`: empty where none is printed. */
export const pageName = (number: string, at: number, count: number): string =>
  [...(number === '' ? [] : [words.pageCalled(number)]), words.leaf(at + 1, count)].join(', ');
