/** What a page or a form needs to be drawn: its fonts, pictures and opacities, by the names its content uses. */
import type { PDFContext, PDFDict, PDFRef } from 'pdf-lib';
import { fontName, imageName, opacityName, type PageContent } from './content.ts';

export function resourcesOf(
  content: PageContent,
  faces: ReadonlyMap<string, PDFRef>,
  images: readonly PDFRef[],
  context: PDFContext,
): PDFDict {
  const fonts = Object.fromEntries([...content.faces].sort().map((face) => [fontName(face), faces.get(face) as PDFRef]));
  const pictures = Object.fromEntries(content.images.map((index) => [imageName(index), images[index] as PDFRef]));
  const states = Object.fromEntries(
    content.opacities.map((value) => [opacityName(value), { Type: 'ExtGState', ca: value / 100, CA: value / 100 }]),
  );
  return context.obj({ Font: fonts, XObject: pictures, ExtGState: states }) as PDFDict;
}
