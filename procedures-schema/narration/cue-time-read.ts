/** Reads times of captions: WebVTT (hours may be left out, a point) and SRT (a comma). Garbage is undefined, never a guess. */
import type { Seconds } from './model.ts';

const TIMES = /^[ \t\n\f\r]*(\S*?)[ \t\n\f\r]*-->[ \t\n\f\r]*(\S*)(.*)$/s;
const VTT = /^(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})$/;
/** One digit of hours is read too: the standard's grammar wants two, its parser does not ask. */
const LONG_HOURS = /^(\d+):([0-5]\d):([0-5]\d)\.(\d{3})$/;
const SRT = /^(\d+):([0-5]?\d):([0-5]?\d)[,.](\d{1,3})$/;

export interface CueTimes {
  readonly start: Seconds;
  readonly end: Seconds;
  /** What follows on the line. */
  readonly rest: string;
}

export const vttTimes = (line: string): CueTimes | undefined => times(line, vttTime);
export const srtTimes = (line: string): CueTimes | undefined => times(line, srtTime);

export function vttTime(text: string): Seconds | undefined {
  const found = VTT.exec(text) ?? LONG_HOURS.exec(text);
  return found ? seconds(found) : undefined;
}

function srtTime(text: string): Seconds | undefined {
  const found = SRT.exec(text);
  return found ? seconds([found[0], found[1], found[2], found[3], (found[4] ?? '').padEnd(3, '0')]) : undefined;
}

/** In thousandths first, so that no binary fraction is added up. */
const seconds = ([, h = '0', m = '0', s = '0', ms = '0']: readonly (string | undefined)[]): Seconds =>
  (((Number(h) * 60 + Number(m)) * 60 + Number(s)) * 1000 + Number(ms)) / 1000;

function times(line: string, read: (text: string) => Seconds | undefined): CueTimes | undefined {
  const found = TIMES.exec(line);
  if (!found) return undefined;
  // The settings may stand right behind the second time: it ends where its last digit is.
  const [, first = '', after = '', more = ''] = found;
  const own = /^[\d:.,]*/.exec(after)?.[0] ?? '';
  const start = read(first);
  const end = read(own);
  return start === undefined || end === undefined ? undefined : { start, end, rest: after.slice(own.length) + more };
}
