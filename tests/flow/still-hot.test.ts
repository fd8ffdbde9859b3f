/**
 * A thermometer that must show something warm proves no heat gone: only a figure that the heat stays below does (common practice, no source). The oven's
 * procedure is one of the frozen texts; here its words about the heat are changed, and nothing else.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/index.ts';

const folder = join(import.meta.dirname, 'prose');
const read = (path: string): string => readFileSync(join(folder, path), 'utf8');
const registers = readdirSync(join(folder, 'registers')).map((name) => `registers/${name}`);
const OVEN = 'procedures/17-oven-sensor.md';
const WAITS = 'Wait 90 minutes. Then the [contact thermometer] held at the front plate must show less than 40 °C.';

/** Errors that speak of the heat. */
function ofTheHeat(instead: string): readonly string[] {
  const text = read(OVEN);
  if (!text.includes(WAITS)) throw new Error('the words about the heat are others now');
  const files = ['library.yaml', ...registers].map((path) => ({ path, text: read(path) }));
  return checkLibrary([...files, { path: OVEN, text: text.replace(WAITS, instead) }])
    .findings.filter(
      ({ file, severity, message, expected }) => file === OVEN && severity === 'error' && /heat/.test(`${message} ${expected ?? ''}`),
    )
    .map(({ check }) => check);
}

describe('heat is gone', () => {
  test.each([
    WAITS,
    'Wait 90 minutes. Then the [contact thermometer] held at the front plate must show 40 °C or less.',
    'Wait 90 minutes. Then the [contact thermometer] held at the front plate must show no more than 40 °C.',
  ])('%s', (instead) => {
    expect(ofTheHeat(instead)).toEqual([]);
  });
});

describe('heat is still there', () => {
  test.each([
    'Wait 90 minutes. Then the [contact thermometer] held at the front plate must show 180 °C.',
    'Wait until the [contact thermometer] shows 180 °C.',
    'Wait 90 minutes.',
  ])('%s', (instead) => {
    expect(ofTheHeat(instead).length).toBeGreaterThan(0);
  });
});
