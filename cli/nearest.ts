/** The nearest of some words, for "did you mean". Distance and order are the registers' own, so that all messages agree. */
import { nearestNames } from '../procedures-schema/index.ts';

export const nearest = (word: string, words: readonly string[]): string | undefined => nearestNames(word, words, 1)[0];
