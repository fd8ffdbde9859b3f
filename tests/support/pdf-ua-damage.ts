/** A PDF damaged on purpose, one point of PDF/UA-1 at a time, so that each point is seen to find what it asks for. Says what is done, not what follows. */
import { PDFArray, type PDFDict, PDFName, PDFNumber, PDFRawStream, PDFString } from 'pdf-lib';
import { eachElement, type RawElement, type RawPdf } from './raw-pdf.ts';

export interface Damage {
  readonly clause: string;
  readonly does: string;
  readonly harm: (raw: RawPdf) => void;
}

const key = (name: string): PDFName => PDFName.of(name);
const firstOf = (raw: RawPdf, role: string): RawElement => [...eachElement(raw.structure())].find((one) => one.role === role) as RawElement;
const annotationOf = (raw: RawPdf, kind: string): PDFDict =>
  (raw.pages.flatMap(({ dict }) => raw.annotations(dict)).find(({ dict }) => raw.name(dict, 'Subtype') === kind) as { dict: PDFDict }).dict;
const streamOf = (raw: RawPdf, text: string | Uint8Array, facts = {}): PDFRawStream =>
  PDFRawStream.of(raw.document.context.obj(facts) as PDFDict, typeof text === 'string' ? Buffer.from(text, 'latin1') : text);
const register = (raw: RawPdf, stream: PDFRawStream) => raw.document.context.register(stream);

/** What a page paints, as another text. */
function repaint(raw: RawPdf, change: (content: string) => string): void {
  const { dict } = raw.pages[1] as RawPdf['pages'][number];
  const before = Buffer.from(raw.stream(dict, 'Contents') as Uint8Array).toString('latin1');
  const after = change(before);
  if (after === before) throw new Error('nothing was damaged');
  dict.set(key('Contents'), register(raw, streamOf(raw, after)));
}

/** The font that the second page shows most words in. */
function fontOf(raw: RawPdf): { readonly font: PDFDict; readonly cid: PDFDict; readonly descriptor: PDFDict } {
  const { dict } = raw.pages[1] as RawPdf['pages'][number];
  const list = raw.dict(raw.dict(dict, 'Resources') as PDFDict, 'Font') as PDFDict;
  const font = raw.document.context.lookup(list.values()[0]) as PDFDict;
  const cid = raw.array(font, 'DescendantFonts')?.lookup(0) as PDFDict;
  return { font, cid, descriptor: raw.dict(cid, 'FontDescriptor') as PDFDict };
}
function typingFont(raw: RawPdf): PDFDict {
  const list = raw.dict(raw.dict(raw.dict(raw.catalog, 'AcroForm') as PDFDict, 'DR') as PDFDict, 'Font') as PDFDict;
  return raw.document.context.lookup(list.values()[0]) as PDFDict;
}
function firstAttachment(raw: RawPdf): PDFDict {
  const tree = raw.dict(raw.dict(raw.catalog, 'Names') as PDFDict, 'EmbeddedFiles') as PDFDict;
  return raw.array(tree, 'Names')?.lookup(1) as PDFDict;
}

const of = (clause: string, does: string, harm: Damage['harm']): Damage => ({ clause, does, harm });

export const damages: readonly Damage[] = [
  of('5', 'no metadata', (raw) => raw.catalog.delete(key('Metadata'))),
  of('7.1 (marked)', 'not marked', (raw) => raw.catalog.delete(key('MarkInfo'))),
  of('7.1 (marked)', 'suspect', (raw) => raw.dict(raw.catalog, 'MarkInfo')?.set(key('Suspects'), raw.document.context.obj(true))),
  of('7.1 (content)', 'paint that is marked as nothing', (raw) => repaint(raw, (content) => `${content}\n0 0 9 9 re f`)),
  of('7.1 (content)', 'an artifact in a paragraph', (raw) =>
    repaint(raw, (content) => content.replace(/(\/P<<\/MCID \d+>>BDC)/, '$1 /Artifact BMC').replace('EMC', 'EMC EMC')),
  ),
  of('7.1 (content)', 'marks that do not end', (raw) => repaint(raw, (content) => content.replace(/EMC(?![\s\S]*EMC)/, ''))),
  of('7.1 (each mark once)', 'a paragraph without its marks', (raw) => firstOf(raw, 'P').dict.delete(key('K'))),
  of('7.1 (roles)', 'a role of its own', (raw) => firstOf(raw, 'P').dict.set(key('S'), key('Para'))),
  of('7.1 (title)', 'the title is not shown', (raw) => raw.catalog.delete(key('ViewerPreferences'))),
  of('7.2', 'no language', (raw) => raw.catalog.delete(key('Lang'))),
  of('7.2', 'a language that is none', (raw) => raw.catalog.set(key('Lang'), PDFString.of('English'))),
  of('7.2', 'a paragraph in a language that is none', (raw) => firstOf(raw, 'P').dict.set(key('Lang'), PDFString.of('German'))),
  of('7.3', 'a figure without its words', (raw) => firstOf(raw, 'Figure').dict.delete(key('Alt'))),
  of('7.3', 'a figure without its box', (raw) => firstOf(raw, 'Figure').dict.delete(key('A'))),
  of('7.4.2', 'a level that is skipped', (raw) => firstOf(raw, 'H2').dict.set(key('S'), key('H4'))),
  of('7.4.4', 'both kinds of heading', (raw) => firstOf(raw, 'H2').dict.set(key('S'), key('H'))),
  of('7.5 (heads)', 'a header cell that heads nothing', (raw) => firstOf(raw, 'TH').dict.delete(key('A'))),
  of('7.5 (rows)', 'a paragraph in a row', (raw) => firstOf(raw, 'TD').dict.set(key('S'), key('P'))),
  of('7.6', 'a paragraph in a list', (raw) => firstOf(raw, 'LI').dict.set(key('S'), key('P'))),
  of('7.8', 'a head that is of no kind', (raw) =>
    repaint(raw, (content) => content.replaceAll('/Type/Pagination/Subtype/', '/Type/Layout/Subtype/')),
  ),
  of('7.9', 'a note without an id', (raw) => firstOf(raw, 'Note').dict.delete(key('ID'))),
  of('7.10', 'optional content', (raw) => raw.catalog.set(key('OCProperties'), raw.document.context.obj({}))),
  of('7.11', 'an attachment named once', (raw) => firstAttachment(raw).delete(key('UF'))),
  of('7.14', 'a box on paper that does not say what it is', (raw) => firstOf(raw, 'Form').dict.delete(key('A'))),
  of('7.14', 'a box on paper that does not say what goes into it', (raw) => raw.dict(firstOf(raw, 'Form').dict, 'A')?.delete(key('Desc'))),
  of('7.15, 7.16', 'a form of the other kind', (raw) =>
    raw.dict(raw.catalog, 'AcroForm')?.set(key('XFA'), register(raw, streamOf(raw, '<xdp/>'))),
  ),
  of('7.17', 'no page labels', (raw) => raw.catalog.delete(key('PageLabels'))),
  of('7.17', 'no bookmarks', (raw) => raw.catalog.delete(key('Outlines'))),
  of('7.18.1', 'a field that leads to no element', (raw) => annotationOf(raw, 'Widget').delete(key('StructParent'))),
  of('7.18.2', 'a TrapNet', (raw) => annotationOf(raw, 'Link').set(key('Subtype'), key('TrapNet'))),
  of('7.18.2', 'an annotation of no known kind', (raw) => annotationOf(raw, 'Link').set(key('Subtype'), key('Sticker'))),
  of('7.18.3', 'no order for the tab key', (raw) =>
    (raw.pages.find(({ dict }) => raw.annotations(dict).length > 0) as { dict: PDFDict }).dict.delete(key('Tabs')),
  ),
  of('7.18.4', 'a field that is not named', (raw) => annotationOf(raw, 'Widget').delete(key('TU'))),
  of('7.18.5', 'a link that does not say where it leads', (raw) => annotationOf(raw, 'Link').delete(key('Contents'))),
  of('7.18.5', 'a link to nowhere', (raw) => annotationOf(raw, 'Link').set(key('Dest'), PDFString.of('nowhere'))),
  of('7.18.6', 'a film that does not say what it is', (raw) => {
    annotationOf(raw, 'Link').set(key('A'), raw.document.context.obj({ S: 'Rendition', R: { C: { S: 'MCD' } } }));
  }),
  of('7.18.8', "a printer's mark in the structure", (raw) => annotationOf(raw, 'Link').set(key('Subtype'), key('PrinterMark'))),
  of('7.19', 'a script when the file is opened', (raw) =>
    raw.catalog.set(key('OpenAction'), raw.document.context.obj({ S: 'JavaScript', JS: PDFString.of('x') })),
  ),
  of('7.19', 'a link that runs a program', (raw) =>
    annotationOf(raw, 'Link').set(key('A'), raw.document.context.obj({ Type: 'Action', S: 'Launch' })),
  ),
  of('7.20', 'content of another file', (raw) => register(raw, streamOf(raw, '', { Type: 'XObject', Subtype: 'Form', Ref: {} }))),
  of('7.21.3.2', 'codes without their glyphs', (raw) => fontOf(raw).cid.delete(key('CIDToGIDMap'))),
  of('7.21.3.3', 'a CMap that is not in the file', (raw) => fontOf(raw).font.set(key('Encoding'), key('Own-H'))),
  of('7.21.3.3', 'a CMap that says two directions', (raw) =>
    fontOf(raw).font.set(key('Encoding'), register(raw, streamOf(raw, '/WMode 1 def', { Type: 'CMap', WMode: 0 }))),
  ),
  of('7.21.4.1', 'a font that is not embedded', (raw) => fontOf(raw).descriptor.delete(key('FontFile2'))),
  of('7.21.4.2', 'a part that is named as the whole', (raw) => fontOf(raw).font.set(key('BaseFont'), key('SourceSans3-Regular'))),
  of('7.21.4.2', 'a list that lacks what is embedded', (raw) =>
    fontOf(raw).descriptor.set(key('CIDSet'), register(raw, streamOf(raw, Uint8Array.of(0x80)))),
  ),
  of('7.21.5', 'a width that is not the glyph’s', (raw) => {
    const widths = (raw.array(fontOf(raw).cid, 'W') as PDFArray).lookup(1, PDFArray);
    widths.set(0, PDFNumber.of(widths.lookup(0, PDFNumber).asNumber() + 5));
  }),
  of('7.21.6', 'a font for typing that says it is symbolic', (raw) =>
    raw.dict(typingFont(raw), 'FontDescriptor')?.set(key('Flags'), PDFNumber.of(4)),
  ),
  of('7.21.6', 'a font for typing without an encoding', (raw) => typingFont(raw).delete(key('Encoding'))),
  of('7.21.7', 'codes without their texts', (raw) => fontOf(raw).font.delete(key('ToUnicode'))),
  of('7.21.7', 'a text that is none', (raw) => {
    const { font } = fontOf(raw);
    const map = new TextDecoder().decode(raw.stream(font, 'ToUnicode'));
    font.set(key('ToUnicode'), register(raw, streamOf(raw, map.replaceAll(/^(<[0-9A-F]{4}>) <[0-9A-F]+>$/gm, '$1 <FFFE>'))));
  }),
  of('7.21.8', 'the glyph for "not there"', (raw) =>
    fontOf(raw).cid.set(key('CIDToGIDMap'), register(raw, streamOf(raw, new Uint8Array(131_072)))),
  ),
];
