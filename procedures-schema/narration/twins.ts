/** The same words stand at several places of a procedure: said where the text does not have one of them, another that is heard nowhere else is meant. */
import { type LaidTake, laid } from './fit.ts';
import type { PassageWords } from './passage-words.ts';
import { withRetakes } from './retakes.ts';

/** A twin must be worth this share (hundredths) of the passage it stands for. */
const TWIN = 90;

/** In the order of the recording. */
export function withTwins(chain: readonly LaidTake[], words: readonly PassageWords[], heard: Int32Array): readonly LaidTake[] {
  const found = new Set(chain.map(({ passage }) => passage));
  const missing = new Set(words.flatMap((_, passage) => (found.has(passage) ? [] : [passage])));
  return withRetakes(chain).map(({ candidate: one, role }) => {
    if (role !== 'stray') return one;
    const [twin] = [...missing]
      .map((passage) => laid({ ...one, passage }, words, heard))
      .filter(({ score }) => score > 0 && score * 100 >= one.score * TWIN)
      .sort((a, b) => b.score - a.score || a.passage - b.passage);
    if (!twin) return one;
    missing.delete(twin.passage);
    return twin;
  });
}
