/** Times as they are written: in captions (hours:minutes:seconds.thousandths), and short for people and descriptions. */
import type { Seconds } from './model.ts';

const two = (n: number): string => String(n).padStart(2, '0');

/** "00:03:12.500", as WebVTT 4.1 wants it; hours have two digits or more. */
export function cueTime(seconds: Seconds): string {
  const thousandths = Math.max(0, Math.round(seconds * 1000));
  const whole = Math.floor(thousandths / 1000);
  return `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}.${String(thousandths % 1000).padStart(3, '0')}`;
}

/** "3:12", with hours "1:03:12": whole seconds, downwards, so that a link never opens after the word. */
export function shortTime(seconds: Seconds): string {
  const whole = Math.max(0, Math.floor(seconds));
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  return h === 0 ? `${m}:${two(s)}` : `${h}:${two(m)}:${two(s)}`;
}
