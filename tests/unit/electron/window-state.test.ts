import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { FIRST, fitted, LEAST, soundState } from '../../../electron/window-state.ts';

const SCREEN = { x: 0, y: 0, width: 1920, height: 1080 };
const at = (x: number, y: number, width = 1000, height = 700) => ({ width, height, place: { x, y }, maximized: false });

describe('a window opens', () => {
  test('where it was', () => expect(fitted(at(100, 50), [SCREEN])).toEqual(at(100, 50)));
  test('where the system likes it, the first time', () => expect(fitted(FIRST, [SCREEN])).toEqual(FIRST));
  test('somewhat below the one before', () => expect(fitted(at(100, 50), [SCREEN], 2).place).toEqual({ x: 156, y: 106 }));
  test('on the second screen', () => expect(fitted(at(2000, 50), [SCREEN, { ...SCREEN, x: 1920 }]).place).toEqual({ x: 2000, y: 50 }));
  test('elsewhere when that screen is gone', () => expect(fitted(at(2000, 50), [SCREEN]).place).toBeUndefined());
  test('not larger than a screen that became smaller', () =>
    expect(fitted(at(0, 0, 3000, 2000), [SCREEN])).toMatchObject({ width: 1920, height: 1080 }));
  test('never above the edge, where it could not be taken hold of', () =>
    expect(fitted(at(100, -30), [SCREEN]).place).toEqual({ x: 100, y: 0 }));
  test.each([
    [159, undefined],
    [160, { x: -840, y: 50 }],
    [161, { x: -839, y: 50 }],
  ])('with at least 160 pixels to take hold of: %i', (shows, place) => {
    expect(fitted(at(shows - 1000, 50), [SCREEN]).place).toEqual(place);
  });
  test('without any screen', () => expect(fitted(at(100, 50), [])).toEqual({ width: 1000, height: 700, maximized: false }));
});

test.each([
  undefined,
  null,
  7,
  [],
  {},
  { width: 'x' },
  { width: 1, height: 1 },
  { width: 1e9, height: 700 },
  { width: 1000.5, height: 700 },
])('a kept state %j is as none', (value) => expect(soundState(value)).toEqual(FIRST));

test('a kept state with an odd place keeps its size', () => {
  expect(soundState({ width: 1000, height: 700, place: { x: 'a', y: 1 }, maximized: 'x' })).toEqual({
    width: 1000,
    height: 700,
    maximized: false,
  });
});

test('whatever was kept, a window can be taken hold of', () => {
  const number = fc.integer({ min: -5_000, max: 5_000 });
  const size = fc.integer({ min: 1, max: 5_000 });
  const screen = fc.record({
    x: number,
    y: number,
    width: fc.integer({ min: 800, max: 4_000 }),
    height: fc.integer({ min: 600, max: 3_000 }),
  });
  fc.assert(
    fc.property(size, size, number, number, fc.array(screen, { maxLength: 3 }), (width, height, x, y, screens) => {
      const state = fitted(soundState({ width, height, place: { x, y }, maximized: false }), screens);
      expect(state.width).toBeGreaterThanOrEqual(LEAST.width);
      expect(state.height).toBeGreaterThanOrEqual(LEAST.height);
      const { place } = state;
      if (place === undefined) return;
      const holds = screens.some(
        (one) => place.y >= one.y && place.y <= one.y + one.height - 40 && place.x < one.x + one.width && place.x + state.width > one.x,
      );
      expect(holds).toBe(true);
    }),
    { numRuns: 300 },
  );
});
