/** Prints the hashes of the sample prints as JSON, in whichever Node runs it. Bundled first: an older one reads no TypeScript. */
import { hashesOfPrints } from './hashes-of-prints.ts';
import { sample } from './sample.ts';

const { texts, paths, input, fonts } = await sample();
console.log(JSON.stringify({ node: process.version, hashes: hashesOfPrints({ texts, paths, figures: [...input.figures], fonts }) }));
