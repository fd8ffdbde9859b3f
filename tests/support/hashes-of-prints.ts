/** Texts, figures and fonts of the sample library to the hash of each of its prints. Touches no machine, so that any machine can be asked for the same. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { checkLibrary } from '../../procedures-schema/index.ts';
import type { FontFiles, Image } from '../../publishing/index.ts';
import { samplePrints } from './sample-prints.ts';

export interface PrintInput {
  readonly texts: readonly { readonly path: string; readonly text: string }[];
  readonly paths: readonly string[];
  readonly figures: readonly (readonly [path: string, image: Image])[];
  readonly fonts: FontFiles;
}

export function hashesOfPrints({ texts, paths, figures, fonts }: PrintInput): Readonly<Record<string, string>> {
  const { facts } = checkLibrary(texts, paths);
  const prints = samplePrints(facts, { library: facts, figures: new Map(figures), draft: false }, fonts);
  return Object.fromEntries(prints.map(({ name, make }) => [name, bytesToHex(sha256(make()))]));
}
