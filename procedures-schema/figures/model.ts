/** What is known of a figure: plain data, read once from its bytes by facts.ts and handed to whoever asks. Opens no file. */

export type FigureKind = 'svg' | 'png' | 'jpeg';

/** Why a figure cannot be shown, and what would be right, each as a sentence. */
export interface Fault {
  readonly says: string;
  readonly right: string;
}

/** Of a picture of dots. */
export interface BitmapFacts {
  readonly columns: number;
  readonly rows: number;
  /** Values that stand for one dot. */
  readonly components: number;
}

/** A page holds them unpacked, three bytes a dot. */
export const MOST_DOTS = 100_000_000;

/** Of a file whose bytes cannot be had. */
export const UNREAD: Fault = {
  says: 'Its file cannot be read, is larger than 64 MB or lies outside the library.',
  right: 'A file of the library that you may read, and smaller.',
};

/** Lengths are thousandths of a point, at the figure's natural size. */
export type FigureFacts =
  | { readonly kind: FigureKind; readonly fault: Fault }
  | {
      readonly kind: 'svg';
      readonly fault?: undefined;
      readonly width: number;
      readonly height: number;
      /** The words that stand in the drawing, each stretch once, in the order drawn. */
      readonly labels: readonly string[];
      /** Size of its smallest print; undefined: it has none. */
      readonly smallest: number | undefined;
    }
  | { readonly kind: 'png' | 'jpeg'; readonly fault?: undefined; readonly width: number; readonly height: number };

/** A figure's file. Text is text already, so that nobody decodes it twice. */
export type FigureFile = { readonly kind: 'svg'; readonly source: string } | { readonly kind: 'png' | 'jpeg'; readonly bytes: Uint8Array };

/** By the ending of its name; undefined: what no page can show. */
export const kindOfFigure = (path: string): FigureKind | undefined =>
  /\.svg$/i.test(path) ? 'svg' : /\.png$/i.test(path) ? 'png' : /\.jpe?g$/i.test(path) ? 'jpeg' : undefined;

/** By what its name says it is; undefined: no picture. */
export function figureFile(path: string, bytes: Uint8Array): FigureFile | undefined {
  const kind = kindOfFigure(path);
  return kind === undefined ? undefined : kind === 'svg' ? { kind, source: new TextDecoder().decode(bytes) } : { kind, bytes };
}
