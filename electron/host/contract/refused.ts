/** A refusal, as sentences by name; the page puts them into its language. Every other error is a fault of the program. */
import { inWords, type Said } from './refusals.ts';

export class Refused extends Error {
  readonly said: readonly Said[];

  constructor(...said: readonly Said[]) {
    super(inWords(said));
    this.said = said;
  }
}
