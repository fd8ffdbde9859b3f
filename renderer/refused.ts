/** What the host refuses, in the words of the page. Which words these are is told before anything is drawn. */
import { inWords, type Refusals, refusalsInEnglish, type Said } from '../electron/host/contract/index.ts';

/** The host said no, or could not be reached. The message is for people, in their language. */
export class HostRefusal extends Error {
  /** What it is called in the contract, for whoever can do something about it. */
  readonly names: readonly string[];

  /** `english`: for what has no name that is known here. */
  constructor(said: readonly Said[], english = '') {
    super();
    this.names = said.map(([name]) => name);
    // Put into words when it is told: what is asked ahead may fail before it is known which words these are.
    Object.defineProperty(this, 'message', { get: () => inWords(said, sentences) || english });
  }
}

let sentences: Refusals = refusalsInEnglish;
/** From now on refusals are told in these words; until then, before anything is drawn, in English. */
export const sayRefusalsIn = (own: Refusals): void => {
  sentences = own;
};

/** A sentence of the host by name, as a list of texts. */
export const refusedInWords = (said: readonly string[]): string => inWords([said as unknown as Said], sentences);
