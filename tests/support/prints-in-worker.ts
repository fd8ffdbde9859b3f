/** A browser's worker: takes what the sample prints are made of, gives back their hashes. */
import { hashesOfPrints, type PrintInput } from './hashes-of-prints.ts';

const here = globalThis as unknown as {
  onmessage: (event: { readonly data: PrintInput }) => void;
  postMessage(message: unknown): void;
};
here.onmessage = ({ data }) => here.postMessage(hashesOfPrints(data));
