/** What pages and forms need to be drawn: fonts, pictures and opacities, by the names their content uses. Written once for all pages that need the same. */
import type { PDFRef } from 'pdf-lib';
import { type Face, faces } from '../layout/index.ts';
import { fontName, imageName, opacityName, type PageFacts } from './content.ts';
import type { PdfFile } from './file.ts';

export class Resources {
  private readonly known = new Map<string, number>();
  private readonly file: PdfFile;
  private readonly fonts: ReadonlyMap<Face, PDFRef>;
  private readonly images: readonly PDFRef[];

  constructor(file: PdfFile, fonts: ReadonlyMap<Face, PDFRef>, images: readonly PDFRef[]) {
    this.file = file;
    this.fonts = fonts;
    this.images = images;
  }

  /** The object number of the dictionary. */
  of({ faces: used, images, opacities }: Pick<PageFacts, 'faces' | 'images' | 'opacities'>): number {
    const fonts = faces.filter((face) => used.has(face)).map((face) => `/${fontName(face)} ${this.fonts.get(face)}`);
    const pictures = sorted(images).map((index) => `/${imageName(index)} ${this.images[index]}`);
    const states = sorted(opacities).map((value) => `/${opacityName(value)}<</Type/ExtGState/ca ${value / 100}/CA ${value / 100}>>`);
    const text = ['<<', ...entry('Font', fonts), ...entry('XObject', pictures), ...entry('ExtGState', states), '>>'].join('');
    let number = this.known.get(text);
    if (number === undefined) {
      number = this.file.reserve(1);
      this.file.begin(number).text(text);
      this.known.set(text, number);
    }
    return number;
  }
}

const entry = (name: string, rows: readonly string[]): readonly string[] => (rows.length === 0 ? [] : [`/${name}<<`, ...rows, '>>']);
const sorted = (values: ReadonlySet<number>): readonly number[] => [...values].sort((a, b) => a - b);
