/** Checks that word the violations of the proof: each takes its rules and says message and remedy; walk and variants come along. */
import type { Draft, Severity } from '../finding.ts';
import type { Rule, Violation } from '../flow/index.ts';
import type { CheckCase, ProcedureCheck } from './check.ts';
import { reIsolation } from './re-isolate.ts';
import { listed, placeName, wordedWalk } from './visit.ts';

interface FlowWords {
  readonly id: string;
  readonly severity: Severity;
  readonly question: string;
  readonly why: string;
  readonly source: string;
  readonly cases: readonly CheckCase[];
  readonly rules: readonly Rule[];
  readonly message: (violation: Violation) => string;
  readonly expected: (violation: Violation) => string;
}

/** How each rule is worded, for whoever tells a violation elsewhere than in its procedure. */
export const WORDED = new Map<Rule, Pick<FlowWords, 'id' | 'message' | 'expected'>>();

/** The check that words a rule: the name a person can look up. */
export const checkWording = (rule: Rule): string => WORDED.get(rule)?.id ?? rule;

export function flowCheck(words: FlowWords): ProcedureCheck {
  const { rules, message, expected, ...rest } = words;
  for (const rule of rules) WORDED.set(rule, { id: words.id, message, expected });
  return {
    ...rest,
    scope: 'procedure',
    *run(facts, library) {
      for (const violation of facts.flow.violations) {
        if (!rules.includes(violation.rule)) continue;
        const draft = draftOf(facts.file, violation, message(violation), expected(violation));
        const fix = reIsolation(facts, library, violation);
        yield fix ? { ...draft, fix } : draft;
      }
    },
  };
}

function draftOf(file: string, violation: Violation, message: string, expected: string): Draft {
  const { at, cause, walk, variants, later, severity } = violation;
  const first = message.charAt(0).toUpperCase() + message.slice(1);
  const more = later > 0 ? ` The same holds for ${later} later step${later === 1 ? '' : 's'}.` : '';
  return {
    file: at.file === '' ? file : at.file,
    span: at.span,
    severity,
    message: `${first}${more}`,
    expected,
    steps: at.step ? [at.step.fullLabel] : [],
    variants,
    walk: wordedWalk(walk),
    ...(cause && cause.span !== at.span
      ? { related: [{ file: cause.file, span: cause.span, message: `so since ${placeName(cause)}` }] }
      : {}),
  };
}

/** " on LT-500 and LT-1000", or nothing where it holds on all. */
export function onVariants(violation: Violation): string {
  return violation.variants.length === 0 ? '' : ` (on ${listed(violation.variants)})`;
}

/** What is still wrong, as a list of words. */
export function missingList(violation: Violation): string {
  return listed(violation.missing);
}
