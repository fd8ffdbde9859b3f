/** How large the text of Write is, with the notes and labels beside it: kept by the host, and told to the styles. The rest of the page is the browser's to enlarge. */
import { putSetting, setting } from './settings.ts';
import { newStore } from './store.ts';

/** Percent, as the host keeps them. */
export const SIZES = [80, 90, 100, 110, 125, 150, 175, 200] as const;
export const USUAL = 100;

/** CSS pixels at the usual size: a letter of the text, its lines, a line of the notes. */
const [LETTER, LINE, NOTE_LINE] = [15.5, 25, 17];

export const textSize = newStore({ percent: Number(setting('text size')) });

export const measures = (percent: number): { readonly letter: number; readonly line: number; readonly noteLine: number } => ({
  letter: (LETTER * percent) / 100,
  // Whole pixels, or what stands beside a line would be off it by the hundredth one.
  line: Math.round((LINE * percent) / 100),
  noteLine: (NOTE_LINE * percent) / 100,
});

export function setTextSize(percent: number): void {
  textSize.set({ percent });
  tellStyles();
  void putSetting('text size', String(percent));
}

/** Undefined: there is none. */
export const nextSize = (larger: boolean, percent = textSize.get().percent): number | undefined =>
  larger ? SIZES.find((one) => one > percent) : SIZES.findLast((one) => one < percent);

export function tellStyles(): void {
  const { percent } = textSize.get();
  document.documentElement.style.setProperty('--text-size', String(percent / 100));
  document.documentElement.style.setProperty('--text-line', `${measures(percent).line}px`);
}
