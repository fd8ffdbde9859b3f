/** Whether words say that what was there is gone: a gauge at nothing, a figure that little is left of, a time that has a least. */

import { isTime } from '../items.ts';

/** "must not show green", "may show red": what it does not have to show. "Nothing may show" and "no red may show" say that it is gone. */
const SHOWS_ELSE = /\b(?:(?:must|may|should|shall|need) not|may|might|can) (?:still )?(?:show|read|indicate|stand)\b/i;

const SHOWS_NONE = /(?:^|[:;,]\s*)(?:no|none|nothing|neither)\b/i;

/** "0 bar or a little more": not gone. */
const OR_MORE = /\bor (?:a (?:little|bit) |slightly |somewhat )?(?:more|higher|above|over)\b/i;

/** "0 Ω" is no voltage: a meter that measures resistance or current shows no supply gone. */
export const showsNoVolts = (text: string): boolean =>
  /\d\s*(?:[kM]?Ω|ohms?|m?A|Hz)(?![\p{L}])/u.test(text) && !/\d\s*[mk]?V(?![\p{L}])/u.test(text);

/** A gauge that stands at nothing, or a mark that shows what it is there to show: no figure but nought. */
export function showsGone(text: string): boolean {
  if (SHOWS_ELSE.test(text) && !SHOWS_NONE.test(text.trim())) return false;
  if (OR_MORE.test(text)) return false;
  if (/(?:^|\s)0(?![.\d])|\bzero\b/i.test(text)) return true;
  return !/\d/.test(text);
}

/**
 * What may be left and hurts nobody, by unit. No library says when a thing is cool enough to touch, so one figure stands for all: 48 °C is the burn threshold of
 * ten minutes of contact on any material (ISO 13732-1), 50 V the limit of extra-low voltage (IEC 61140). Of pressure, and of all else, only nought counts.
 */
const HARMLESS: Readonly<Record<string, number>> = { '°C': 48, '°F': 118, V: 50 };

/** "less than 50 V", "40 °C or less": a figure that what is left stays below, and that hurts nobody. "Below 150 °C" says nothing of the kind. */
export function showsLittle(text: string): boolean {
  const bound =
    /\b(?:below|under|less than|cooler than|no(?:t)? (?:more|higher|hotter|warmer) than|not (?:over|above)|at most|or (?:less|lower|below|under)|down to|cooled to)\b/i;
  const figures = [...text.matchAll(/(\d+(?:[.,]\d+)?)\s*(°[CF]|[\p{L}%Ω]+)?/gu)].filter(([, , unit]) => !isTime(unit ?? ''));
  return bound.test(text) && figures.length > 0 && figures.every(([, figure = '', unit = '']) => harmless(figure, unit));
}

const harmless = (figure: string, unit: string): boolean => Number(figure.replace(',', '.')) <= (HARMLESS[unit] ?? 0);

/** "Wait at most 5 min": how long it is at least is not said. */
export const atMost = (text: string): boolean =>
  /\b(?:at (?:the )?most|up to|less than|no(?:t)? (?:more|longer) than|not over|(?:under|within|maximum) \d|(?:half|(?:a )?(?:part|fraction)|some) of)/i.test(
    text,
  );
