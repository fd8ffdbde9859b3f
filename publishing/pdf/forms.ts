/** Boxes of the pages as form fields (ISO 32000-1, 12.7): one field a name, one widget a box, each named aloud. Draws no box: the page has it. */
import { PDFBool, type PDFContext, type PDFDict, PDFHexString, PDFName, type PDFRef, PDFString } from 'pdf-lib';
import type { FontSource } from '../layout/index.ts';
import type { FieldBox } from './content.ts';
import { embedFormFont } from './form-font.ts';
import { points } from './numbers.ts';
import { stream } from './stream.ts';

export interface Widget {
  readonly ref: PDFRef;
  readonly page: number;
  readonly field: FieldBox;
}

const multiline = 4096;
const fontName = 'Form';
/** Full stops part the levels of a field's name, so none may stand in it. */
const partialName = (name: string): string => name.replaceAll('.', '-');

/** Registers fields and widgets in the order given; gives the dictionary of the form, or undefined where nothing is filled in. */
export function writeForm(
  boxes: readonly { readonly page: number; readonly field: FieldBox; readonly parent: number }[],
  pages: readonly PDFRef[],
  source: FontSource,
  context: PDFContext,
): { readonly form: PDFDict; readonly widgets: readonly Widget[] } | undefined {
  if (boxes.length === 0) return undefined;
  const font = embedFormFont(source, context);
  const byName = new Map<string, (typeof boxes)[number][]>();
  for (const box of boxes) byName.set(box.field.name, [...(byName.get(box.field.name) ?? []), box]);
  const looks = new Map<string, PDFRef>();
  const widgets: Widget[] = [];
  const fields: PDFRef[] = [];
  for (const [name, list] of byName) {
    const first = (list[0] as (typeof boxes)[number]).field;
    const facts = fieldFacts(name, first, context);
    if (list.length === 1) {
      const ref = context.nextRef();
      const { page, field, parent } = list[0] as (typeof boxes)[number];
      for (const [key, value] of widgetFacts(field, parent, pages[page] as PDFRef, looks, context).entries()) facts.set(key, value);
      context.assign(ref, facts);
      widgets.push({ ref, page, field });
      fields.push(ref);
      continue;
    }
    const whole = context.nextRef();
    const kids = list.map(({ page, field, parent }) => {
      const dict = widgetFacts(field, parent, pages[page] as PDFRef, looks, context);
      dict.set(PDFName.of('Parent'), whole);
      dict.set(PDFName.of('TU'), PDFHexString.fromText(field.says));
      const ref = context.register(dict);
      widgets.push({ ref, page, field });
      return ref;
    });
    facts.set(PDFName.of('Kids'), context.obj(kids));
    context.assign(whole, facts);
    fields.push(whole);
  }
  const form = context.obj({ Fields: fields, DR: { Font: { [fontName]: font } } }) as PDFDict;
  form.set(PDFName.of('DA'), PDFString.of(`/${fontName} 11 Tf 0 g`));
  form.set(PDFName.of('NeedAppearances'), PDFBool.False);
  return { form, widgets };
}

function fieldFacts(name: string, field: FieldBox, context: PDFContext): PDFDict {
  const dict = context.obj({ FT: field.kind === 'tick' ? 'Btn' : 'Tx' }) as PDFDict;
  dict.set(PDFName.of('T'), PDFHexString.fromText(partialName(name)));
  dict.set(PDFName.of('TU'), PDFHexString.fromText(field.says));
  if (field.kind === 'tick') {
    dict.set(PDFName.of('V'), PDFName.of('Off'));
    return dict;
  }
  dict.set(PDFName.of('DA'), PDFString.of(`/${fontName} ${field.many ? 10 : 11} Tf 0 g`));
  if (field.many) dict.set(PDFName.of('Ff'), context.obj(multiline));
  return dict;
}

function widgetFacts(field: FieldBox, parent: number, page: PDFRef, looks: Map<string, PDFRef>, context: PDFContext): PDFDict {
  const box = field.box.map((value) => Number(points(value)));
  const dict = context.obj({ Type: 'Annot', Subtype: 'Widget', Rect: box, F: 4, P: page, StructParent: parent }) as PDFDict;
  const width = field.box[2] - field.box[0];
  const height = field.box[3] - field.box[1];
  const look = (kind: 'tick' | 'off' | 'text'): PDFRef => {
    const key = `${kind} ${width} ${height}`;
    let ref = looks.get(key);
    if (ref === undefined) {
      const drawn = kind === 'tick' ? cross(width, height) : kind === 'text' ? '/Tx BMC EMC' : '';
      const made = stream(context, new TextEncoder().encode(drawn), { Type: 'XObject', Subtype: 'Form' });
      made.dict.set(PDFName.of('BBox'), context.obj([0, 0, Number(points(width)), Number(points(height))]));
      made.dict.set(PDFName.of('Resources'), context.obj({}));
      ref = context.register(made);
      looks.set(key, ref);
    }
    return ref;
  };
  if (field.kind === 'tick') {
    dict.set(PDFName.of('AS'), PDFName.of('Off'));
    dict.set(PDFName.of('AP'), context.obj({ N: { Yes: look('tick'), Off: look('off') } }));
    return dict;
  }
  dict.set(PDFName.of('AP'), context.obj({ N: look('text') }));
  return dict;
}

/** Two strokes from corner to corner: a cross is seen on a copy where a thin tick is not. */
function cross(width: number, height: number): string {
  const [l, r] = [Math.round(width * 0.18), Math.round(width * 0.82)].map(points);
  const [b, t] = [Math.round(height * 0.18), Math.round(height * 0.82)].map(points);
  return `0 0 0 RG ${points(Math.round(width / 9))} w 1 J ${l} ${b} m ${r} ${t} l ${l} ${t} m ${r} ${b} l S`;
}
