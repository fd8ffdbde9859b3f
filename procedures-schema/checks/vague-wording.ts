/** Words that leave the measure to the reader. */
import { proseSpan } from '../format/index.ts';
import type { ProcedureCheck } from './check.ts';
import { eachReading } from './visit.ts';

/** Each with what to write instead. Common practice, no source. */
const VAGUE: readonly (readonly [RegExp, string])[] = [
  [
    /\b(?:as|if|when|where) (?:necessary|needed|required|appropriate|applicable)\b/gi,
    'the condition: what is seen or measured that makes it necessary',
  ],
  [/\b(?:tight|loose|long|hot|cold|high|low|clean|dry|far|slack|warm) enough\b/gi, 'a value and its limits, or what is seen and felt'],
  [/\b(?:sufficiently|adequately|appropriately|properly|suitably|correctly)\b/gi, 'what is right: a value, a position, what is seen'],
  [/\b(?:approximately|roughly|more or less) (?:right|level|straight|tight)\b/gi, 'a value with its tolerance'],
  [/\b(?:some|a little|a bit of|a small amount of|enough) (?:grease|oil|lubricant|compound|sealant|cleaner|water)\b/gi, 'the amount'],
  [/\b(?:and so on|etc\.?|and the like)(?=\s|$|[.,;)])/gi, 'the whole list'],
  [
    /\b(?:for a while|for some time|after some time|shortly|a few (?:times|minutes|seconds|turns)|several (?:times|minutes|seconds|turns)|periodically|occasionally)\b/gi,
    'a number',
  ],
  [
    /\b(?:excessive(?:ly)?|unusual(?:ly)?|abnormal(?:ly)?|undue|unduly)\b/gi,
    'the limit, or what is heard, seen or felt when it is too much',
  ],
  [/\b(?:firmly tight|hand tight enough|good and tight|very tight|fully tight)\b/gi, 'the torque, or the turn after contact'],
];

/** Any of them: most sentences have none. */
const ANY = new RegExp(VAGUE.map(([pattern]) => pattern.source).join('|'), 'i');

export const vagueWording: ProcedureCheck = {
  id: 'vague-wording',
  scope: 'procedure',
  severity: 'warning',
  question: 'Does every step say what is enough, in numbers or in what is seen, heard or felt?',
  why: 'Two technicians make two machines of "tight enough".',
  source: '29 CFR 1910.147(c)(4)(ii): specific procedural steps; IEC/IEEE 82079-1 (from memory), correctness',
  cases: [
    {
      name: 'tight enough',
      finds: 1,
      work: '#. Look at the [scraper] until it is tight enough.\n                                     ^^^^^^^^^^^^',
    },
    { name: 'as necessary', finds: 1, work: '#. Clean the [scraper] as necessary.\n                       ^^^^^^^^^^^^' },
    { name: 'what is felt', finds: 0, work: '#. Clean the [scraper] until a finger drawn along the edge feels no grit.' },
  ],
  *run({ file, read }) {
    for (const { prose, step } of eachReading(read).filter((place) => ANY.test(place.prose.text)))
      for (const [pattern, instead] of VAGUE)
        for (const found of prose.text.matchAll(pattern))
          yield {
            file,
            span: proseSpan(prose, found.index, found.index + found[0].length),
            message: `"${found[0]}" leaves the measure to the reader.`,
            actual: found[0],
            expected: instead,
            steps: [step.fullLabel],
          };
  },
};
