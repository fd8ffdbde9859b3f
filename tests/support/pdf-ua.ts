/**
 * Points of PDF/UA-1 that a program can check, each with its clause of ISO 14289-1:2014. The wording is ours; clause numbers are from memory of
 * the standard, checked against the public list of the Matterhorn Protocol's conditions (PDF Association, CC BY 4.0); those of 7.4.4, 7.18.2, 7.18.6,
 * 7.18.8, 7.21.3.3 and 7.21.4.2 also against the folders of the veraPDF validation profiles (CC BY 4.0). Each gives what is wrong, or nothing.
 * What only a person can judge (whether an alternate text says the right thing, whether an order makes sense) is not here.
 */
import { type PDFArray, type PDFDict, PDFName, type PDFObject } from 'pdf-lib';
import { annotationPoints } from './pdf-ua-annotations.ts';
import { fontPoints, type Point } from './pdf-ua-fonts.ts';
import { eachElement, type RawElement, type RawPdf } from './raw-pdf.ts';

/** ISO 32000-1, 14.8.4: the standard structure types. */
const standard = new Set(
  'Document Part Art Sect Div BlockQuote Caption TOC TOCI Index NonStruct Private P H H1 H2 H3 H4 H5 H6 L LI Lbl LBody Table TR TH TD THead TBody TFoot Span Quote Note Reference BibEntry Code Link Annot Ruby RB RT RP Warichu WT WP Figure Formula Form'.split(
    ' ',
  ),
);
const elements = (pdf: RawPdf): readonly RawElement[] => [...eachElement(pdf.structure())].filter(({ role }) => role !== 'Root');
const kidsOf = (element: RawElement): readonly string[] => element.kids.map((kid) => ('role' in kid ? kid.role : 'content'));
const xmp = (pdf: RawPdf): string => new TextDecoder().decode(pdf.stream(pdf.catalog, 'Metadata') ?? new Uint8Array());
const attribute = (pdf: RawPdf, element: RawElement, key: string): PDFObject | undefined =>
  pdf.dict(element.dict, 'A')?.get(PDFName.of(key));

export const points: readonly Point[] = [
  {
    clause: '5',
    says: 'the metadata says PDF/UA-1',
    wrong: (pdf) => (/<pdfuaid:part>1<\/pdfuaid:part>/.test(xmp(pdf)) ? [] : ['no pdfuaid:part 1']),
  },
  {
    clause: '7.1 (marked)',
    says: 'the file is marked, and nothing in it is suspect',
    wrong: (pdf) => {
      const info = pdf.dict(pdf.catalog, 'MarkInfo');
      const said = info?.toString() ?? '';
      return /\/Marked true/.test(said) && !/\/Suspects true/.test(said) ? [] : [`MarkInfo is ${said}`];
    },
  },
  {
    clause: '7.1 (content)',
    says: 'whatever is painted is tagged or an artifact, never both, never one in the other',
    wrong: (pdf) =>
      pdf.pages.flatMap(({ dict }, index) => {
        const { painted, balanced } = pdf.painted(dict);
        const loose = painted.filter(({ inside }) => inside.length !== 1);
        return [
          ...(balanced ? [] : [`page ${index + 1}: marks do not balance`]),
          ...loose.map(({ operator, inside }) => `page ${index + 1}: ${operator} inside [${inside.join(', ')}]`),
        ];
      }),
  },
  {
    clause: '7.1 (each mark once)',
    says: 'every marked piece stands once in the structure, and the parent tree leads back to its element',
    wrong: (pdf) => {
      const out: string[] = [];
      const holder = new Map<string, RawElement>();
      for (const element of elements(pdf))
        for (const kid of element.kids) {
          if (!('mcid' in kid)) continue;
          const key = `${kid.page} ${kid.mcid}`;
          if (holder.has(key)) out.push(`${key} stands twice`);
          holder.set(key, element);
        }
      const tree = pdf.dict(pdf.dict(pdf.catalog, 'StructTreeRoot') as PDFDict, 'ParentTree') as PDFDict;
      const parents = pdf.numbers(tree);
      for (const { ref, dict } of pdf.pages) {
        const list = pdf.document.context.lookup(parents.get(pdf.number(dict, 'StructParents') ?? -1)) as PDFArray | undefined;
        for (const mcid of pdf.painted(dict).mcids) {
          const element = holder.get(`${ref} ${mcid}`);
          if (element === undefined) out.push(`${ref} ${mcid} stands nowhere`);
          else if (list?.get(mcid) !== element.ref) out.push(`${ref} ${mcid}: the parent tree leads elsewhere`);
          holder.delete(`${ref} ${mcid}`);
        }
      }
      return [...out, ...[...holder.keys()].map((key) => `${key} is named but not painted`)];
    },
  },
  {
    clause: '7.1 (roles)',
    says: 'every role is a standard one',
    wrong: (pdf) => elements(pdf).flatMap(({ role }) => (standard.has(role) ? [] : [role])),
  },
  {
    clause: '7.1 (title)',
    says: 'the title stands in the metadata and is what the window shows',
    wrong: (pdf) => {
      const preferences = pdf.dict(pdf.catalog, 'ViewerPreferences')?.toString() ?? '';
      const title = /<dc:title><rdf:Alt><rdf:li xml:lang="x-default">([^<]+)</.exec(xmp(pdf))?.[1] ?? '';
      return [...(title === '' ? ['no dc:title'] : []), ...(/\/DisplayDocTitle true/.test(preferences) ? [] : ['the title is not shown'])];
    },
  },
  {
    clause: '7.2',
    says: 'the language of the document is given, and where another is given it is one',
    wrong: (pdf) => {
      const language = pdf.text(pdf.catalog, 'Lang') ?? '';
      // RFC 5646: a language, then subtags of two to eight characters.
      const own = elements(pdf).flatMap(({ dict }) => pdf.text(dict, 'Lang') ?? []);
      return [language, ...new Set(own)].flatMap((one) => (/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/.test(one) ? [] : [`Lang is "${one}"`]));
    },
  },
  {
    clause: '7.3',
    says: 'every figure has an alternate text, and a box on its page (ISO 32000-1, 14.8.5.4.3)',
    wrong: (pdf) =>
      elements(pdf)
        .filter(({ role }) => role === 'Figure')
        .flatMap((figure) => [
          ...((pdf.text(figure.dict, 'Alt') ?? '').trim() === '' ? ['a figure without Alt'] : []),
          ...(attribute(pdf, figure, 'BBox') === undefined ? ['a figure without BBox'] : []),
        ]),
  },
  {
    clause: '7.4.2',
    says: 'headings begin with H1 and skip no level on the way down',
    wrong: (pdf) => {
      let last = 0;
      return elements(pdf).flatMap(({ role }) => {
        const level = Number(/^H([1-6])$/.exec(role)?.[1] ?? 0);
        if (level === 0) return [];
        const skipped = level > last + 1 ? [`H${level} after ${last === 0 ? 'nothing' : `H${last}`}`] : [];
        last = level;
        return skipped;
      });
    },
  },
  {
    clause: '7.4.4',
    says: 'headings have numbered levels, or none has: the two kinds are not mixed, and no element has two of the second kind',
    wrong: (pdf) => {
      const roles = elements(pdf).map(({ role }) => role);
      const mixed = roles.includes('H') && roles.some((role) => /^H[1-6]$/.test(role));
      const twice = elements(pdf).filter((element) => kidsOf(element).filter((role) => role === 'H').length > 1);
      return [...(mixed ? ['H beside H1 to H6'] : []), ...twice.map(({ role }) => `two H in one ${role}`)];
    },
  },
  {
    clause: '7.5 (heads)',
    says: 'every header cell says what it heads',
    wrong: (pdf) =>
      elements(pdf).flatMap((cell) => (cell.role === 'TH' && attribute(pdf, cell, 'Scope') === undefined ? ['a TH without Scope'] : [])),
  },
  {
    clause: '7.5 (rows)',
    says: 'tables hold rows of cells, and every row as many as the others (ISO 32000-1, 14.8.4.3.4)',
    wrong: (pdf) =>
      elements(pdf)
        .filter(({ role }) => role === 'Table')
        .flatMap((table) => {
          const rows = [...eachElement(table)].filter(({ role }) => role === 'TR');
          const counts = new Set(rows.map(({ kids }) => kids.length));
          const odd = rows.flatMap((row) => kidsOf(row).filter((role) => role !== 'TH' && role !== 'TD'));
          const loose = kidsOf(table).filter((role) => !['THead', 'TBody', 'TFoot', 'TR', 'Caption'].includes(role));
          return [
            ...odd.map((role) => `${role} in a row`),
            ...loose.map((role) => `${role} in a table`),
            ...(counts.size > 1 ? [`rows of ${[...counts].join(' and ')} cells`] : []),
          ];
        }),
  },
  {
    clause: '7.6',
    says: 'lists hold items, items hold label and body (ISO 32000-1, 14.8.4.3.3), and no item stands outside a list',
    wrong: (pdf) =>
      elements(pdf).flatMap((element) => {
        const kids = kidsOf(element);
        if (element.role === 'L') return kids.filter((role) => role !== 'LI' && role !== 'Caption').map((role) => `${role} in a list`);
        if (element.role === 'LI') {
          const out = kids.filter((role) => role !== 'Lbl' && role !== 'LBody').map((role) => `${role} in an item`);
          return element.parent?.role === 'L' ? out : [...out, 'an item outside a list'];
        }
        return [];
      }),
  },
  {
    clause: '7.8',
    says: 'what stands at the head and foot of every page is an artifact of the page, and says which of the two it is',
    wrong: (pdf) =>
      pdf.pages.flatMap(({ dict }, index) => {
        const content = Buffer.from(pdf.stream(dict, 'Contents') ?? new Uint8Array()).toString('latin1');
        const parts = [...content.matchAll(/\/Artifact\s*<<([^>]*)>>\s*BDC/g)].map(([, said = '']) => said);
        const odd = parts.filter((said) => !/\/Type\s*\/(Pagination|Layout|Page|Background)\b/.test(said));
        const loose = parts.filter((said) => /\/Subtype/.test(said) && !/\/Type\s*\/Pagination/.test(said));
        return [...odd, ...loose].map((said) => `page ${index + 1}: ${said}`);
      }),
  },
  {
    clause: '7.9',
    says: 'every note has an id of its own',
    wrong: (pdf) => {
      const ids = elements(pdf)
        .filter(({ role }) => role === 'Note')
        .map(({ dict }) => pdf.text(dict, 'ID') ?? '');
      return new Set(ids).size === ids.length && !ids.includes('') ? [] : ['notes without an id of their own'];
    },
  },
  {
    clause: '7.10',
    says: 'nothing is optional content',
    wrong: (pdf) => (pdf.catalog.has(PDFName.of('OCProperties')) ? ['OCProperties'] : []),
  },
  {
    clause: '7.11',
    says: 'every attached file is named twice',
    wrong: (pdf) => {
      const names = pdf.dict(pdf.catalog, 'Names');
      const tree = names === undefined ? undefined : pdf.dict(names, 'EmbeddedFiles');
      const list = tree === undefined ? [] : (pdf.array(tree, 'Names')?.asArray() ?? []);
      return list.flatMap((entry, index) => {
        if (index % 2 === 0) return [];
        const dict = pdf.document.context.lookup(entry) as PDFDict;
        return pdf.text(dict, 'F') && pdf.text(dict, 'UF') ? [] : ['an attachment without F and UF'];
      });
    },
  },
  {
    clause: '7.14',
    says: 'a box on paper is a form element that says what it is and what goes into it (ISO 32000-1, 14.8.5.6)',
    wrong: (pdf) =>
      elements(pdf)
        .filter(({ role, kids }) => role === 'Form' && !kids.some((kid) => 'annotation' in kid))
        .flatMap((form) => {
          const said = pdf.dict(form.dict, 'A');
          const role = said === undefined ? undefined : pdf.name(said, 'Role');
          return [
            ...(said !== undefined && pdf.name(said, 'O') === 'PrintField' ? [] : ['a box that does not say what it is']),
            ...(role !== undefined && ['rb', 'cb', 'pb', 'tv'].includes(role) ? [] : [`a box of the kind ${role}`]),
            ...(said !== undefined && (pdf.text(said, 'Desc') ?? '') !== '' ? [] : ['a box that does not say what goes into it']),
            ...(form.kids.length > 0 ? [] : ['a box that is not drawn']),
          ];
        }),
  },
  {
    clause: '7.15, 7.16',
    says: 'there is no form of the other kind (XFA) and no encryption',
    wrong: (pdf) => {
      const form = pdf.dict(pdf.catalog, 'AcroForm');
      return [...(form?.has(PDFName.of('XFA')) ? ['XFA'] : []), ...(pdf.document.isEncrypted ? ['encrypted'] : [])];
    },
  },
  {
    clause: '7.17',
    says: 'there are bookmarks where there is more than one chapter, and every page has a label',
    wrong: (pdf) => {
      const labels = pdf.dict(pdf.catalog, 'PageLabels');
      return [
        ...(labels === undefined || !pdf.numbers(labels).has(0) ? ['no page labels'] : []),
        ...(pdf.dict(pdf.catalog, 'Outlines') === undefined ? ['no bookmarks'] : []),
      ];
    },
  },
  ...annotationPoints,
  {
    clause: '7.20',
    says: 'no page borrows content from another file',
    wrong: (pdf) => {
      const found: string[] = [];
      for (const [, object] of pdf.document.context.enumerateIndirectObjects())
        if ('dict' in object && (object.dict as PDFDict).has(PDFName.of('Ref'))) found.push('a reference XObject');
      return found;
    },
  },
  ...fontPoints,
];

/** Clauses that no point stands for, each with why. From memory of the standard. */
export const notAsked: Readonly<Record<string, string>> = {
  '7.4.1': 'Whether what looks like a heading is one is for a person; that ours are follows from the book they are made of.',
  '7.4.3': 'It is about headings beyond H6. Ours end at H6 by the type of the structure.',
  '7.7': 'Formulas are printed as words and numbers; no element is a Formula.',
  '7.12': 'Article threads: the file has none, and reading follows the structure.',
  '7.13': 'Signatures: the file is signed on paper, or in a file of its own beside it.',
  '7.18.7': 'Attachments hang on the file and not on a page; 7.11 asks for their names.',
  '7.21.3.1': 'That code and glyph fit together follows from 7.21.3.2: both say Identity.',
  '7.21.1': 'It says what a font is; its parts follow.',
  '7.21.2': 'It says which kinds of font there are; 7.21.3.2 and 7.21.6 ask for the two that we write.',
};
