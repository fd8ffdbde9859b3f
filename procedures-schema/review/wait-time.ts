/**
 * How long a walk makes a technician wait: what the text gives a time for, and whether there are waits that end only when something is seen. How long
 * work takes is nobody's to reckon here.
 */

import { add, compare, type DecimalMark, multiply, parseQuantity, type Rational, ZERO } from '../quantities/index.ts';
import type { Action } from '../reading/index.ts';

export interface Waited {
  /** "1 h 5 min"; empty: no wait with a time. */
  readonly time: string;
  /** Some end when something is seen, whenever that is. */
  readonly open: boolean;
}

/** Added up exactly; words are made of it last. */
export interface WaitSum {
  readonly seconds: Rational;
  readonly open: boolean;
}

export const NO_WAIT: WaitSum = { seconds: ZERO, open: false };

/** `mark`: how the library writes numbers. */
export function waitOf(actions: readonly Action[], mark: DecimalMark): WaitSum {
  return actions
    .filter(({ kind }) => kind === 'wait')
    .map(({ amounts }): WaitSum => {
      const [seconds] = amounts.flatMap(({ text }) => secondsIn(text, mark) ?? []);
      return seconds === undefined ? { seconds: ZERO, open: true } : { seconds, open: false };
    })
    .reduce(both, NO_WAIT);
}

export const both = (a: WaitSum, b: WaitSum): WaitSum => ({ seconds: add(a.seconds, b.seconds), open: a.open || b.open });

export const saidWait = ({ seconds, open }: WaitSum): Waited => ({ time: inHours(seconds), open });

/** The least of a range, as a proof takes it. */
function secondsIn(text: string, mark: DecimalMark): Rational | undefined {
  const quantity = parseQuantity(text, mark);
  const value = quantity?.lower ?? quantity?.nominal;
  return quantity && value && value.doubtful === undefined && quantity.unit.kind === 'time'
    ? multiply(value.value, quantity.unit.factor)
    : undefined;
}

/** Whole seconds; what is left of one is not waited for. */
function inHours(seconds: Rational): string {
  if (compare(seconds, ZERO) <= 0) return '';
  const whole = seconds.n / seconds.d;
  const parts = [[whole / 3600n, 'h'] as const, [(whole / 60n) % 60n, 'min'] as const, [whole % 60n, 's'] as const];
  return parts
    .filter(([count]) => count > 0n)
    .map(([count, unit]) => `${count}\u00a0${unit}`)
    .join(' ');
}
