/** Ordinals to label text and back, for every house style. Which step has which ordinal is labels.ts. */
import type { NumberingStyle } from '../registers/index.ts';

/** 1 is a, 26 is z, 27 is aa. */
export function letters(ordinal: number): string {
  let out = '';
  for (let n = ordinal; n > 0; n = Math.floor((n - 1) / 26)) out = String.fromCharCode(97 + ((n - 1) % 26)) + out;
  return out;
}

const ROMAN: readonly (readonly [number, string])[] = [
  [100, 'c'],
  [90, 'xc'],
  [50, 'l'],
  [40, 'xl'],
  [10, 'x'],
  [9, 'ix'],
  [5, 'v'],
  [4, 'iv'],
  [1, 'i'],
];

export function roman(ordinal: number): string {
  let rest = ordinal;
  let out = '';
  for (const [value, sign] of ROMAN) {
    while (rest >= value) {
      out += sign;
      rest -= value;
    }
  }
  return out;
}

/** Label of a step at the top of a section. `section` counts the procedure sections of the file. */
export function topLabel(style: NumberingStyle, section: number, ordinal: number): string {
  if (style.steps === 'letters') return letters(ordinal).toUpperCase();
  if (style.steps === 'decimal') return `${section}.${ordinal}`;
  return String(ordinal);
}

/**
 * Label of a substep, its parent's label included, so that it can be said alone: 4b, 4.2, C2.
 * Below the second level letters and numbers take turns; decimals stay decimals.
 */
export function subLabel(style: NumberingStyle, depth: number, parent: string, ordinal: number): string {
  if (style.substeps === 'decimal') return `${parent}.${ordinal}`;
  const lettered = (style.substeps === 'letters') === (depth % 2 === 1);
  if (lettered) return /[a-zA-Z]$/.test(parent) ? `${parent}.${letters(ordinal)}` : parent + letters(ordinal);
  return /\d$/.test(parent) ? `${parent}.${ordinal}` : parent + String(ordinal);
}

/** Two ways of typing one label: case apart. */
export function sameLabel(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

/** "4b", "4.2", "C" as ordinals, whatever the style: [4, 2], [4, 2], [3]. Undefined: no label. */
export function labelPath(label: string): readonly number[] | undefined {
  if (!/^(?:\d+|[a-z]{1,2}(?![a-z]))(?:\.?(?:\d+|[a-z]{1,2}(?![a-z])))*$/i.test(label)) return undefined;
  return [...label.matchAll(/\d+|[a-z]+/gi)].map(([part]) => (/\d/.test(part) ? Number(part) : ordinalOf(part.toLowerCase())));
}

function ordinalOf(text: string): number {
  let n = 0;
  for (const c of text) n = n * 26 + (c.charCodeAt(0) - 96);
  return n;
}
