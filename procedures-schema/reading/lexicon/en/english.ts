/** English, put together from its word classes: words only. Rules that use them stand elsewhere. */
import type { Lexicon } from '../lexicon.ts';
import { BESIDE } from './beside.ts';
import { LITTLE_WORDS } from './little-words.ts';
import { NOUNS_AND_ADJECTIVES } from './nouns-and-adjectives.ts';
import { REFERENCES } from './references.ts';
import { SAYINGS } from './sayings.ts';
import { STATES } from './states.ts';
import { UNITS_AND_MODELS } from './units-and-models.ts';
import { VERBS_OF_ENERGY } from './verbs-of-energy.ts';
import { VERBS_OF_HANDS } from './verbs-of-hands.ts';
import { VERBS_OF_ORDER } from './verbs-of-order.ts';
import { WAYS_OF_ORDERING } from './ways-of-ordering.ts';

export const english: Lexicon = {
  language: 'en',
  verbs: { ...VERBS_OF_ENERGY, ...VERBS_OF_HANDS, ...VERBS_OF_ORDER },
  ...LITTLE_WORDS,
  ...WAYS_OF_ORDERING,
  ...NOUNS_AND_ADJECTIVES,
  ...UNITS_AND_MODELS,
  ...STATES,
  ...REFERENCES,
  ...BESIDE,
  sayings: SAYINGS,
};
