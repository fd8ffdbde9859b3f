/** Which of several takes of a passage is its own, which were read again on the spot, and which stand where the text has them not. */
import type { Take } from './alignment-model.ts';
import type { LaidTake } from './fit.ts';

/** Going back at most this far and reading on is a retake; further away it is a stray. */
const RETAKEN = 6;
/** One in so many takes between may be a mistaken one. */
const OUTLIERS = 4;

/** In the order of the recording. The last of those read again on the spot is the passage's own, else the best. */
export function withRetakes(chain: readonly LaidTake[]): readonly { readonly candidate: LaidTake; readonly role: Take['role'] }[] {
  const main = new Map<number, number>();
  chain.forEach((one, index) => {
    const held = main.get(one.passage);
    const rival = held === undefined ? undefined : (chain[held] as LaidTake);
    if (
      rival === undefined ||
      (retaken(chain, held as number, index) ? one.score * 10 >= rival.score * 7 : better(chain, index, held as number))
    )
      main.set(one.passage, index);
  });
  return chain.map((candidate, index) => {
    const own = main.get(candidate.passage) as number;
    if (own === index) return { candidate, role: 'main' as const };
    const near = retaken(chain, Math.min(own, index), Math.max(own, index));
    return { candidate, role: near ? ('retake' as const) : ('stray' as const) };
  });
}

/** Hardly anything but neighbours was spoken between the two. */
function retaken(chain: readonly LaidTake[], first: number, second: number): boolean {
  const passage = (chain[first] as LaidTake).passage;
  const between = chain.slice(first + 1, second);
  const far = between.filter((one) => Math.abs(one.passage - passage) > RETAKEN).length;
  return between.length <= 2 * RETAKEN && far * OUTLIERS <= between.length + OUTLIERS / 2;
}

/** The one between its own neighbours wins; then the score. */
function better(chain: readonly LaidTake[], one: number, other: number): boolean {
  const fits = (index: number): number => {
    const { passage } = chain[index] as LaidTake;
    const [before, after] = [chain[index - 1]?.passage ?? -1, chain[index + 1]?.passage ?? passage + 1];
    return (before < passage && passage - before <= RETAKEN ? 1 : 0) + (after > passage && after - passage <= RETAKEN ? 1 : 0);
  };
  return fits(one) !== fits(other) ? fits(one) > fits(other) : (chain[one] as LaidTake).score > (chain[other] as LaidTake).score;
}
