/**
 * The heap of a command that makes much and keeps little. Node lets the space for new objects grow to three times 16 MB; work that runs once through a
 * guide has nothing left of most of them a moment later, and soon finds the next ones in the processor's cache when that space stays at the 1 MB it begins
 * with. Measured on the bench's guide of 85 procedures: 145 instead of 197 MB at the peak, and a seventh less time. A check of a library gains nothing by it.
 */
import { setFlagsFromString } from 'node:v8';

/** From now on; call it before anything was made. */
export const keepYoungGenerationSmall = (): void => setFlagsFromString('--semi-space-growth-factor=1');
