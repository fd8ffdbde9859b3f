/** Types of the few calls we make on libraries that ship none. */
declare module 'fontkit' {
  export interface Glyph {
    readonly id: number;
    readonly codePoints: readonly number[];
    readonly advanceWidth: number;
    readonly bbox: { readonly maxY: number };
  }
  export interface GlyphRun {
    readonly direction: 'ltr' | 'rtl';
    readonly glyphs: readonly Glyph[];
    readonly positions: readonly { readonly xAdvance: number; readonly xOffset: number; readonly yOffset: number }[];
  }
  export interface Font {
    readonly postscriptName: string;
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    readonly capHeight: number;
    readonly xHeight: number;
    readonly italicAngle: number;
    readonly bbox: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number };
    readonly 'OS/2': { readonly usWeightClass: number };
    hasGlyphForCodePoint(codePoint: number): boolean;
    createSubset(): { includeGlyph(id: number): number; encode(): Uint8Array };
    glyphForCodePoint(codePoint: number): Glyph;
    getGlyph(id: number): Glyph;
    layout(text: string, features?: Readonly<Record<string, boolean>>): GlyphRun;
  }
  export function create(bytes: Uint8Array): Font;
}

declare module 'linebreak' {
  export default class LineBreaker {
    constructor(text: string);
    nextBreak(): { readonly position: number; readonly required: boolean } | null;
  }
}

declare module 'hypher' {
  export default class Hypher {
    constructor(language: object);
    hyphenate(word: string): string[];
  }
}

declare module 'hyphenation.en-us' {
  const patterns: { readonly id: readonly string[]; readonly leftmin: number; readonly rightmin: number; readonly patterns: object };
  export default patterns;
}

declare module 'hyphenation.de' {
  const patterns: { readonly id: string; readonly leftmin: number; readonly rightmin: number; readonly patterns: object };
  export default patterns;
}
