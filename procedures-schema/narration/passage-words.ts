/** A script and a recording as an alignment sees them: numbers only, each word with what it is worth where it is heard. */
import type { HeardToken } from './alignment-model.ts';
import type { Passage, Script } from './model.ts';
import { normalText, type Token } from './normal-words.ts';
import { Vocabulary } from './vocabulary.ts';

export interface PassageWords {
  /** The most the whole can score. */
  readonly most: number;
  /** What leaving out a place costs. */
  readonly loss: readonly number[];
  /** Worth of each heard id at each place. */
  readonly rows: readonly Int8Array[];
  /** A title or a remark: no reason to leave the order of the text. */
  readonly loose: boolean;
}

/** A condition that is left out or misheard costs this for each word: whether it was said is asked of the place, not of its finding. */
const CLAUSE_LOSS = 1;

/** `ids`: of the heard words, in the same numbers. */
export function passageWords(
  script: Script,
  tokens: readonly (readonly Token[])[],
  heard: readonly HeardToken[],
): { readonly words: readonly PassageWords[]; readonly ids: Int32Array } {
  const vocabulary = new Vocabulary();
  const said = tokens.map((passage) => passage.map((token) => vocabulary.idOf(token)));
  const ids = Int32Array.from(heard, (token) => vocabulary.idOf(token));
  const table = vocabulary.table(said.flat());
  const words = said.map((own, index): PassageWords => {
    const passage = script.passages[index] as Passage;
    const clause = clauseTokens(passage);
    const gain = own.map((id) => vocabulary.gain[id] as number);
    return {
      most: gain.reduce((sum, one) => sum + one, 0),
      loss: own.map((id, at) => (at < clause ? Math.min(CLAUSE_LOSS, vocabulary.loss[id] as number) : (vocabulary.loss[id] as number))),
      rows: own.map((id, at) => {
        const row = table.get(id) as Int8Array;
        return at < clause ? row.map((worth) => Math.max(worth, -CLAUSE_LOSS - 1)) : row;
      }),
      loose: !/^(?:step|branch|notice)$/.test(passage.kind),
    };
  });
  return { words, ids };
}

/** How many tokens the condition at the front has that names models: "For the DL-25," has three. */
export function clauseTokens({ models, spoken }: Pick<Passage, 'models' | 'spoken'>): number {
  if (models.length === 0) return 0;
  const clause = /^(?:For|On) [^,:]*,/.exec(spoken)?.[0];
  return clause === undefined ? 0 : normalText(clause).tokens.length;
}
