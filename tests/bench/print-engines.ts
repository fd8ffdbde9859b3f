/**
 * The engines the print bench compares ours with, each as one function from what it is given in memory to the bytes of a PDF file. Ours (print-own.ts)
 * gets the book and breaks, tags and bookmarks it; these get the finished lines of its pages (words, face, size, place) and only draw them. Run in a
 * process of its own (print-one.ts), so that peak memory is its own.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { FontFiles } from '../../publishing/index.ts';

export interface BenchLine {
  readonly face: keyof FontFiles;
  readonly size: number;
  readonly x: number;
  /** Baseline, from the top of the page. */
  readonly y: number;
  readonly text: string;
}
export interface BenchInput {
  readonly width: number;
  readonly height: number;
  /** Empty for ours, which has the book. */
  readonly pages: readonly (readonly BenchLine[])[];
  readonly bookFile: string;
}

/** Does the untimed part (loading modules), then hands back the timed one. */
type Engine = (input: BenchInput, fonts: FontFiles) => Promise<() => Promise<Uint8Array> | Uint8Array>;

const { resolve } = createRequire(import.meta.url);
const paths = {
  regular: resolve('source-sans/TTF/SourceSans3-Regular.ttf'),
  italic: resolve('source-sans/TTF/SourceSans3-It.ttf'),
  bold: resolve('source-sans/TTF/SourceSans3-Semibold.ttf'),
  mono: resolve('dejavu-fonts-ttf/ttf/DejaVuSansMono.ttf'),
  fallback: resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf'),
  fallbackBold: resolve('dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf'),
  fallbackItalic: resolve('dejavu-fonts-ttf/ttf/DejaVuSans-Oblique.ttf'),
  boldItalic: resolve('source-sans/TTF/SourceSans3-SemiboldIt.ttf'),
  fallbackBoldItalic: resolve('dejavu-fonts-ttf/ttf/DejaVuSans-BoldOblique.ttf'),
} as const;
type FaceName = keyof typeof paths;
const faceNames = Object.keys(paths) as FaceName[];

/** Height of the letters above the baseline where an engine places the top of a line: as the font itself says. */
const ascents = async (): Promise<Record<FaceName, number>> => {
  const { create } = await import('fontkit');
  const of = (face: FaceName): number => {
    const font = create(new Uint8Array(readFileSync(paths[face])));
    return font.ascent / font.unitsPerEm;
  };
  return Object.fromEntries(faceNames.map((face) => [face, of(face)])) as Record<FaceName, number>;
};

const pdfkit: Engine = async (input) => {
  const { default: PDFDocument } = await import('pdfkit');
  const high = await ascents();
  return () =>
    new Promise((done) => {
      const document = new PDFDocument({ autoFirstPage: false, size: [input.width, input.height], margin: 0 });
      const chunks: Uint8Array[] = [];
      document.on('data', (chunk: Uint8Array) => chunks.push(chunk));
      document.on('end', () => done(Buffer.concat(chunks)));
      for (const face of faceNames) document.registerFont(face, paths[face]);
      for (const lines of input.pages) {
        document.addPage();
        for (const { face, size, x, y, text } of lines)
          document
            .font(face)
            .fontSize(size)
            .text(text, x, y - size * high[face], { lineBreak: false });
      }
      document.end();
    });
};

const pdfLib: Engine = async (input, fonts) => {
  const { PDFDocument } = await import('pdf-lib');
  const fontkit = await import('fontkit');
  return async () => {
    const document = await PDFDocument.create();
    document.registerFontkit(fontkit as never);
    const used = new Set(input.pages.flatMap((lines) => lines.map(({ face }) => face)));
    const embedded = new Map<FaceName, Awaited<ReturnType<typeof document.embedFont>>>();
    for (const face of faceNames) if (used.has(face)) embedded.set(face, await document.embedFont(fonts[face], { subset: false }));
    for (const lines of input.pages) {
      const page = document.addPage([input.width, input.height]);
      for (const { face, size, x, y, text } of lines)
        page.drawText(text, { x, y: input.height - y, size, font: embedded.get(face) as NonNullable<ReturnType<typeof embedded.get>> });
    }
    return document.save();
  };
};

const pdfmake: Engine = async (input) => {
  const { default: maker } = await import('pdfmake');
  const high = await ascents();
  const api = maker as unknown as {
    addFonts(fonts: object): void;
    setUrlAccessPolicy?(allowed: () => boolean): void;
    createPdf(definition: object): { getBuffer(): Promise<Uint8Array> };
  };
  return () => {
    api.addFonts(
      Object.fromEntries(
        faceNames.map((face) => [face, { normal: paths[face], bold: paths[face], italics: paths[face], bolditalics: paths[face] }]),
      ),
    );
    const content = input.pages.flatMap((lines, page) =>
      lines.map(({ face, size, x, y, text }, index) => ({
        text,
        font: face,
        fontSize: size,
        noWrap: true,
        absolutePosition: { x, y: y - size * high[face] },
        ...(page > 0 && index === 0 ? { pageBreak: 'before' } : {}),
      })),
    );
    return api
      .createPdf({ pageSize: { width: input.width, height: input.height }, pageMargins: 0, content, defaultStyle: { font: 'regular' } })
      .getBuffer();
  };
};

const reactPdf: Engine = async (input) => {
  const React = await import('react');
  const { Document, Page, Text, Font, renderToBuffer } = await import('@react-pdf/renderer');
  const high = await ascents();
  for (const face of faceNames) Font.register({ family: face, src: paths[face] });
  Font.registerHyphenationCallback((word: string) => [word]);
  return () =>
    renderToBuffer(
      React.createElement(
        Document,
        null,
        ...input.pages.map((lines) =>
          React.createElement(
            Page,
            { size: [input.width, input.height] as [number, number], wrap: false },
            ...lines.map(({ face, size, x, y, text }) =>
              React.createElement(
                Text,
                { style: { position: 'absolute', left: x, top: y - size * high[face], fontFamily: face, fontSize: size, lineHeight: 1 } },
                text,
              ),
            ),
          ),
        ),
      ),
    );
};

const chromium: Engine = async (input) => {
  const { launch } = await import('../support/desk.ts');
  const { pathToFileURL } = await import('node:url');
  const { writeFileSync } = await import('node:fs');
  const high = await ascents();
  const escaped = (text: string): string => text.replace(/&/g, '&amp;').replace(/</g, '&lt;');
  const faces = faceNames.map((face) => `@font-face{font-family:${face};src:url(${pathToFileURL(paths[face])})}`).join('');
  const pages = input.pages
    .map(
      (lines) =>
        `<section>${lines
          .map(
            ({ face, size, x, y, text }) =>
              `<span style="left:${x}pt;top:${(y - size * high[face]).toFixed(2)}pt;font:${size}pt/1 ${face}">${escaped(text)}</span>`,
          )
          .join('')}</section>`,
    )
    .join('');
  const html = `<!doctype html><meta charset=utf-8><title>bench</title><style>${faces}@page{size:${input.width}pt ${input.height}pt;margin:0}body{margin:0}section{position:relative;height:${input.height - 0.5}pt;overflow:hidden;break-after:page}section:last-child{break-after:auto}span{position:absolute;white-space:pre}</style>${pages}`;
  const file = `${input.bookFile}.html`;
  writeFileSync(file, html);
  return async () => {
    const running = await launch();
    const page = await running.newPage();
    await page.goto(pathToFileURL(file).href);
    const bytes = await page.pdf({ preferCSSPageSize: true, tagged: true, outline: false, printBackground: true });
    await running.close();
    return bytes;
  };
};

export const engines: Readonly<Record<string, Engine>> = {
  pdfkit,
  'pdf-lib drawText': pdfLib,
  pdfmake,
  '@react-pdf/renderer': reactPdf,
  'Chromium print': chromium,
};
