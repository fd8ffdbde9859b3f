/** The points of PDF/UA-1 about annotations and what they do (ISO 14289-1:2014, 7.18 and 7.19): in the structure, named aloud, of kinds that a reader knows. */
import { type PDFDict, PDFName } from 'pdf-lib';
import type { Point } from './pdf-ua-fonts.ts';
import { eachElement, type RawElement, type RawPdf } from './raw-pdf.ts';

const elements = (pdf: RawPdf): readonly RawElement[] => [...eachElement(pdf.structure())].filter(({ role }) => role !== 'Root');
const annotations = (pdf: RawPdf): readonly PDFDict[] => pdf.pages.flatMap(({ dict }) => pdf.annotations(dict).map((one) => one.dict));
const subtypes = (pdf: RawPdf): readonly string[] => annotations(pdf).map((dict) => pdf.name(dict, 'Subtype') ?? 'none');

/** ISO 32000-1, Table 169: the kinds of annotation there are. */
const kinds = new Set(
  'Text Link FreeText Line Square Circle Polygon PolyLine Highlight Underline Squiggly StrikeOut Stamp Caret Ink Popup FileAttachment Sound Movie Widget Screen PrinterMark TrapNet Watermark 3D Redact'.split(
    ' ',
  ),
);

/** Every dictionary of the file that stands by itself, and every one in those. */
function* dictionaries(pdf: RawPdf): Iterable<PDFDict> {
  const seen = new Set<unknown>();
  const visit = function* (object: unknown): Iterable<PDFDict> {
    if (seen.has(object) || typeof object !== 'object' || object === null) return;
    seen.add(object);
    if ('dict' in object && !('entries' in object)) yield* visit(object.dict);
    else if ('entries' in object) {
      yield object as PDFDict;
      for (const [, value] of (object as PDFDict).entries()) yield* visit(value);
    } else if ('asArray' in object) for (const value of (object as { asArray(): unknown[] }).asArray()) yield* visit(value);
  };
  for (const [, object] of pdf.document.context.enumerateIndirectObjects()) yield* visit(object);
}

export const annotationPoints: readonly Point[] = [
  {
    clause: '7.18.1',
    says: 'every annotation stands in the structure, in an element of its kind, and the parent tree leads back',
    wrong: (pdf) => {
      const holder = new Map<string, RawElement>();
      for (const element of elements(pdf))
        for (const kid of element.kids) if ('annotation' in kid) holder.set(String(kid.annotation), element);
      const tree = pdf.dict(pdf.dict(pdf.catalog, 'StructTreeRoot') as PDFDict, 'ParentTree') as PDFDict;
      const parents = pdf.numbers(tree);
      return pdf.pages.flatMap(({ dict: page }) =>
        pdf.annotations(page).flatMap(({ ref, dict }) => {
          const element = holder.get(String(ref));
          const wanted = { Link: 'Link', Widget: 'Form' }[pdf.name(dict, 'Subtype') ?? ''];
          if (element?.role !== wanted) return [`${pdf.name(dict, 'Subtype')} in ${element?.role ?? 'nothing'}`];
          return parents.get(pdf.number(dict, 'StructParent') ?? -1) === element?.ref ? [] : ['the parent tree leads elsewhere'];
        }),
      );
    },
  },
  {
    clause: '7.18.2',
    says: 'annotations are of the kinds that PDF knows, and none is a TrapNet',
    wrong: (pdf) => subtypes(pdf).filter((kind) => !kinds.has(kind) || kind === 'TrapNet'),
  },
  {
    clause: '7.18.3',
    says: 'the tab key follows the structure',
    wrong: (pdf) =>
      pdf.pages.flatMap(({ dict }, index) =>
        pdf.annotations(dict).length > 0 && pdf.name(dict, 'Tabs') !== 'S' ? [`page ${index + 1}`] : [],
      ),
  },
  {
    clause: '7.18.4',
    says: 'every field is named aloud, and its element holds nothing else',
    wrong: (pdf) => {
      const widgetIn = ({ kids }: RawElement): boolean => kids.some((kid) => 'annotation' in kid);
      // Of a file that is no form the boxes are asked for by 7.14.
      const forms = elements(pdf).filter((one) => one.role === 'Form' && (widgetIn(one) || pdf.catalog.has(PDFName.of('AcroForm'))));
      const widgets = pdf.pages.flatMap(({ dict }) => pdf.annotations(dict)).filter(({ dict }) => pdf.name(dict, 'Subtype') === 'Widget');
      return [
        ...forms.flatMap(({ kids }) =>
          kids.length === 1 && kids[0] !== undefined && 'annotation' in kids[0] ? [] : ['a Form holds more'],
        ),
        ...widgets.flatMap(({ dict }) => ((pdf.text(dict, 'TU') ?? '') === '' ? ['a field without TU'] : [])),
        ...(forms.length === widgets.length ? [] : [`${widgets.length} fields in ${forms.length} elements`]),
      ];
    },
  },
  {
    clause: '7.18.5',
    says: 'every link says where it leads, and leads there',
    wrong: (pdf) => {
      const names = pdf.dict(pdf.dict(pdf.catalog, 'Names') as PDFDict, 'Dests') as PDFDict;
      const known = new Set((pdf.array(names, 'Names')?.asArray() ?? []).filter((_, index) => index % 2 === 0).map(String));
      return pdf.pages.flatMap(({ dict: page }) =>
        pdf.annotations(page).flatMap(({ dict }) => {
          if (pdf.name(dict, 'Subtype') !== 'Link') return [];
          return [
            ...((pdf.text(dict, 'Contents') ?? '').trim() === '' ? ['a link without Contents'] : []),
            ...(known.has(String(dict.get(PDFName.of('Dest')))) ? [] : ['a link to nowhere']),
          ];
        }),
      );
    },
  },
  {
    clause: '7.18.6',
    says: 'a film or sound in the file says of what kind it is, and what there is instead',
    wrong: (pdf) =>
      [...dictionaries(pdf)]
        .filter((dict) => pdf.name(dict, 'S') === 'MCD' || pdf.name(dict, 'Type') === 'MediaClip')
        .flatMap((dict) => ['CT', 'Alt'].filter((key) => !dict.has(PDFName.of(key))).map((key) => `a media clip without ${key}`)),
  },
  {
    clause: '7.18.8',
    says: "a printer's mark stands in no structure",
    wrong: (pdf) =>
      annotations(pdf).flatMap((dict) =>
        pdf.name(dict, 'Subtype') === 'PrinterMark' && dict.has(PDFName.of('StructParent')) ? ["a printer's mark in the structure"] : [],
      ),
  },
  {
    clause: '7.19',
    says: 'nothing runs by itself: no script, no program, nothing sent, so that nobody is hurried or taken elsewhere',
    wrong: (pdf) =>
      [...dictionaries(pdf)].flatMap((dict) => {
        const acts = pdf.name(dict, 'Type') === 'Action' || dict.has(PDFName.of('JS')) ? (pdf.name(dict, 'S') ?? 'JS') : undefined;
        const open = ['OpenAction', 'AA', 'A'].filter((key) => pdf.dict(dict, key)?.has(PDFName.of('S')));
        return [...(acts === undefined ? [] : [`an action: ${acts}`]), ...open.map((key) => `an action at ${key}`)];
      }),
  },
];
