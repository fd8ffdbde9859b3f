/** How large the pages are shown and which beside which: kept in the settings; menus and buttons change it here. */
import { putSetting, setting } from '../state/settings.ts';
import { newStore } from '../state/store.ts';
import { ARRANGEMENTS, type Arrangement, nextStep, type Zoom, zoomOf } from './arrange.ts';

interface Viewing {
  readonly zoom: Zoom;
  readonly arrangement: Arrangement;
  /** What is shown now, where it is fitted too. */
  readonly percent: number;
}

/** CSS pixels of a window in which a page of A4 in its true size stands whole beside the choices. */
const ROOMY = 1190;

/** Nobody begins with a page that is cut off at both sides; who has chosen a size has it in every window. */
const firstZoom = (chosen: string): Zoom => (chosen === '' && innerWidth < ROOMY ? 'width' : zoomOf(chosen));

export const viewing = newStore<Viewing>({
  zoom: firstZoom(setting('pages zoom')),
  arrangement: ARRANGEMENTS.find((one) => one === setting('pages arranged')) ?? 'single',
  percent: 100,
});

export function setZoom(zoom: Zoom | undefined): void {
  if (zoom === undefined) return;
  viewing.set({ zoom });
  void putSetting('pages zoom', String(zoom));
}

export const stepped = (larger: boolean): Zoom | undefined => nextStep(viewing.get().percent, larger);

export function arrange(arrangement: Arrangement): void {
  viewing.set({ arrangement });
  void putSetting('pages arranged', arrangement);
}

export interface Place {
  /** Of the page at hand. */
  readonly index: number;
  /** How far down its row what is seen begins, and how far across its middle is: shares of the whole. */
  readonly down: number;
  readonly across: number;
}

let kept: { readonly file: string; readonly place: Place } | undefined;

/** Where somebody was in these pages, or their beginning. */
export const placeIn = (file: string): Place => (kept?.file === file ? kept.place : { index: 0, down: 0, across: 0.5 });

export function keepPlace(file: string, place: Place): void {
  kept = { file, place };
}

/** The field for a page's number. */
export const GO_TO_PAGE = 'go-to-page';
export function goToPage(): void {
  document.getElementById(GO_TO_PAGE)?.focus();
}
