/** Where a window was and whether it still fits the screens of today. Numbers only; keeps and shows nothing. */

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** In screen pixels; without a place the system chooses one. */
export interface WindowState {
  readonly width: number;
  readonly height: number;
  readonly place?: { readonly x: number; readonly y: number };
  readonly maximized: boolean;
}

export const FIRST: WindowState = { width: 1440, height: 900, maximized: false };
export const LEAST = { width: 720, height: 480 } as const;
/** So much of a window must show that it can be taken hold of. */
const HOLD = { width: 160, height: 40 } as const;
/** A second window on top of the first would hide it. */
const STEP = 28;

export function soundState(value: unknown): WindowState {
  const given = (typeof value === 'object' && value !== null ? value : {}) as Readonly<Record<string, unknown>>;
  const { width, height, maximized } = given;
  const place = given.place as { readonly x?: unknown; readonly y?: unknown } | undefined;
  if (!isSize(width, LEAST.width) || !isSize(height, LEAST.height)) return FIRST;
  const state = { width, height, maximized: maximized === true };
  return Number.isSafeInteger(place?.x) && Number.isSafeInteger(place?.y) ? { ...state, place: place as { x: number; y: number } } : state;
}

const isSize = (value: unknown, least: number): value is number =>
  Number.isSafeInteger(value) && Number(value) >= least && Number(value) < 20_000;

/** `screens`: the parts of each screen that windows may cover. `before`: how many windows are open already. */
export function fitted(state: WindowState, screens: readonly Box[], before = 0): WindowState {
  const { place: kept, ...rest } = state;
  if (kept === undefined) return rest;
  const place = { x: kept.x + STEP * before, y: kept.y + STEP * before };
  const screen = screens.find((one) => overlap({ ...place, width: state.width, height: state.height }, one));
  if (screen === undefined) return rest;
  const width = Math.max(LEAST.width, Math.min(state.width, screen.width));
  const height = Math.max(LEAST.height, Math.min(state.height, screen.height));
  // A window that became narrower must still reach the screen; above the screen's edge a title bar cannot be taken hold of.
  return {
    width,
    height,
    place: { x: Math.max(place.x, screen.x - width + HOLD.width), y: Math.max(place.y, screen.y) },
    maximized: state.maximized,
  };
}

function overlap(window: Box, screen: Box): boolean {
  const across = Math.min(window.x + window.width, screen.x + screen.width) - Math.max(window.x, screen.x);
  const down = Math.min(window.y + window.height, screen.y + screen.height) - Math.max(window.y, screen.y);
  return across >= HOLD.width && down >= HOLD.height && window.y < screen.y + screen.height - HOLD.height;
}
