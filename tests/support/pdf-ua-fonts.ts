/** The points of PDF/UA-1 about fonts (ISO 14289-1:2014, 7.21): embedded, measured as they are, every code with its glyph and its text. */
import { create } from 'fontkit';
import { type PDFArray, PDFDict, PDFName, type PDFNumber, PDFRawStream } from 'pdf-lib';
import type { RawPdf } from './raw-pdf.ts';

export interface Point {
  readonly clause: string;
  readonly says: string;
  readonly wrong: (pdf: RawPdf) => readonly string[];
}

/** Every font of the file: those of pages and the one fields are typed in. */
function fonts(pdf: RawPdf): readonly PDFDict[] {
  const found = new Map<string, PDFDict>();
  const resources = [...pdf.pages.map(({ dict }) => pdf.dict(dict, 'Resources')), formResources(pdf)];
  for (const resource of resources) {
    const list = resource === undefined ? undefined : pdf.dict(resource, 'Font');
    for (const [name, ref] of list?.entries() ?? []) found.set(`${ref}${name}`, pdf.document.context.lookup(ref) as PDFDict);
  }
  return [...found.values()];
}
function formResources(pdf: RawPdf): PDFDict | undefined {
  const form = pdf.dict(pdf.catalog, 'AcroForm');
  return form === undefined ? undefined : pdf.dict(form, 'DR');
}
function descendant(pdf: RawPdf, font: PDFDict): PDFDict | undefined {
  return pdf.array(font, 'DescendantFonts')?.lookup(0, PDFDict);
}
const embedded = (pdf: RawPdf, font: PDFDict): Uint8Array | undefined => {
  const descriptor = pdf.dict(descendant(pdf, font) ?? font, 'FontDescriptor');
  return descriptor === undefined ? undefined : pdf.stream(descriptor, 'FontFile2');
};

/** Codes a page shows, font by font, from its content stream. */
function shown(pdf: RawPdf, page: PDFDict): ReadonlyMap<string, ReadonlySet<number>> {
  const content = Buffer.from(pdf.stream(page, 'Contents') ?? new Uint8Array()).toString('latin1');
  const out = new Map<string, Set<number>>();
  let font = '';
  for (const [, name, bytes = ''] of content.matchAll(/\/(F\d+) [\d.]+ Tf|\(([^()\\\r]*)\)/g)) {
    if (name !== undefined) font = name;
    else
      for (let k = 0; k < bytes.length; k += 2)
        out.set(font, (out.get(font) ?? new Set()).add(bytes.charCodeAt(k) * 256 + bytes.charCodeAt(k + 1)));
  }
  return out;
}

/** Widths of a CID font as written: runs of codes that follow each other. */
function widthsOf(pdf: RawPdf, cid: PDFDict): ReadonlyMap<number, number> {
  const list = pdf.array(cid, 'W')?.asArray() ?? [];
  const out = new Map<number, number>();
  for (let k = 0; k + 1 < list.length; k += 2)
    (list[k + 1] as PDFArray).asArray().forEach((width, index) => {
      out.set((list[k] as PDFNumber).asNumber() + index, (width as PDFNumber).asNumber());
    });
  return out;
}

export const fontPoints: readonly Point[] = [
  {
    clause: '7.21.3.2',
    says: 'every font of codes says which glyph a code is',
    wrong: (pdf) =>
      fonts(pdf).flatMap((font) => {
        const cid = descendant(pdf, font);
        if (cid === undefined) return [];
        const ordering = pdf.text(pdf.dict(cid, 'CIDSystemInfo') as PDFDict, 'Ordering');
        return pdf.name(font, 'Encoding') === 'Identity-H' && ordering === 'Identity' && pdf.stream(cid, 'CIDToGIDMap') !== undefined
          ? []
          : [pdf.name(font, 'BaseFont') ?? 'a font'];
      }),
  },
  {
    clause: '7.21.3.3',
    says: 'what turns codes into glyphs is known by its name, or stands in the file and leans on no other',
    wrong: (pdf) =>
      fonts(pdf).flatMap((font) => {
        if (descendant(pdf, font) === undefined) return [];
        const name = pdf.name(font, 'Encoding');
        // Of the names that ISO 32000-1, Table 118, lists, we write these two.
        if (name !== undefined) return name === 'Identity-H' || name === 'Identity-V' ? [] : [`the CMap ${name} is not in the file`];
        const own = pdf.document.context.lookup(font.get(PDFName.of('Encoding')));
        if (!(own instanceof PDFRawStream)) return ['no CMap'];
        const said = /\/WMode\s+(\d)/.exec(new TextDecoder('latin1').decode(pdf.stream(font, 'Encoding')))?.[1] ?? '0';
        return [
          ...(String(pdf.number(own.dict, 'WMode') ?? 0) === said ? [] : ['a CMap that says two directions']),
          ...(own.dict.has(PDFName.of('UseCMap')) ? ['a CMap that leans on another'] : []),
        ];
      }),
  },
  {
    clause: '7.21.4.1',
    says: 'every font is embedded, the one for typing included',
    wrong: (pdf) => fonts(pdf).flatMap((font) => (embedded(pdf, font) === undefined ? [pdf.name(font, 'BaseFont') ?? 'a font'] : [])),
  },
  {
    clause: '7.21.4.2',
    says: 'a font of which only a part is embedded is named so, and a list of what is embedded names it all, or is not there',
    wrong: (pdf) =>
      fonts(pdf).flatMap((font) => {
        const cid = descendant(pdf, font);
        const descriptor = pdf.dict(cid ?? font, 'FontDescriptor');
        const name = pdf.name(font, 'BaseFont') ?? 'a font';
        const set = descriptor === undefined ? undefined : pdf.stream(descriptor, 'CIDSet');
        const used = cid === undefined ? [] : [...widthsOf(pdf, cid).keys()];
        const missing = set === undefined ? [] : used.filter((code) => (((set[code >> 3] ?? 0) >> (7 - (code & 7))) & 1) === 0);
        return [
          ...(/^[A-Z]{6}\+./.test(name) ? [] : [`${name} is not named as a part`]),
          ...(missing.length > 0 ? [`${name}: CIDSet lacks ${missing.length} codes`] : []),
          ...(descriptor?.has(PDFName.of('CharSet')) ? [`${name}: a CharSet, which only Type 1 has`] : []),
        ];
      }),
  },
  {
    clause: '7.21.5',
    says: 'widths are those of the embedded font, to a thousandth',
    wrong: (pdf) =>
      fonts(pdf).flatMap((font) => {
        const program = create(embedded(pdf, font) as Uint8Array);
        const scale = (width: number): number => (width * 1000) / program.unitsPerEm;
        const cid = descendant(pdf, font);
        if (cid === undefined) return [];
        const map = pdf.stream(cid, 'CIDToGIDMap') as Uint8Array;
        return [...widthsOf(pdf, cid)].flatMap(([code, width]) => {
          const glyph = ((map[code * 2] as number) << 8) | (map[code * 2 + 1] as number);
          return Math.abs(scale(program.getGlyph(glyph).advanceWidth) - width) <= 1 ? [] : [`code ${code}: ${width}`];
        });
      }),
  },
  {
    clause: '7.21.6',
    says: 'the font for typing is not symbolic, has a named encoding and a character map',
    wrong: (pdf) =>
      fonts(pdf).flatMap((font) => {
        if (pdf.name(font, 'Subtype') !== 'TrueType') return [];
        const flags = pdf.number(pdf.dict(font, 'FontDescriptor') as PDFDict, 'Flags') ?? 0;
        const program = create(embedded(pdf, font) as Uint8Array);
        const wants = ['A', 'z', '0', 'é', '€'];
        const lacking = wants.filter((character) => !program.hasGlyphForCodePoint(character.codePointAt(0) as number));
        return [
          ...((flags & 36) === 32 ? [] : [`flags ${flags}`]),
          ...(pdf.name(font, 'Encoding') === 'WinAnsiEncoding' ? [] : ['no encoding']),
          ...lacking.map((character) => `no ${character}`),
        ];
      }),
  },
  {
    clause: '7.21.7',
    says: 'every code shown has a text, and none that is no text (U+0000, U+FEFF, U+FFFE)',
    wrong: (pdf) =>
      pdf.pages.flatMap(({ dict }) => {
        const list = pdf.dict(pdf.dict(dict, 'Resources') as PDFDict, 'Font') as PDFDict;
        return [...shown(pdf, dict)].flatMap(([name, codes]) => {
          const font = pdf.document.context.lookup(list.get(PDFName.of(name))) as PDFDict;
          const map = new TextDecoder().decode(pdf.stream(font, 'ToUnicode') ?? new Uint8Array());
          const texts = new Map([...map.matchAll(/^<([0-9A-F]{4})> <([0-9A-F]+)>$/gm)].map(([, code, text]) => [code, text]));
          return [...codes].flatMap((code) => {
            const text = texts.get(code.toString(16).padStart(4, '0').toUpperCase());
            return text === undefined || /^(0000|FEFF|FFFE)/.test(text) ? [`${name} ${code}: ${text}`] : [];
          });
        });
      }),
  },
  {
    clause: '7.21.8',
    says: 'no page shows the glyph for "not there"',
    wrong: (pdf) =>
      pdf.pages.flatMap(({ dict }) => {
        const list = pdf.dict(pdf.dict(dict, 'Resources') as PDFDict, 'Font') as PDFDict;
        return [...shown(pdf, dict)].flatMap(([name, codes]) => {
          const cid = descendant(pdf, pdf.document.context.lookup(list.get(PDFName.of(name))) as PDFDict) as PDFDict;
          const map = pdf.stream(cid, 'CIDToGIDMap') as Uint8Array;
          return [...codes].flatMap((code) => (map[code * 2] === 0 && map[code * 2 + 1] === 0 ? [`${name} ${code}`] : []));
        });
      }),
  },
];
