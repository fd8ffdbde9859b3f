/** Inline text to runs of one look and element, cleaned of what prints nothing. Leaves words and breaks to items.ts. */
import type { Inline } from '../book.ts';
import type { Look, TextKit } from './parts.ts';
import type { Face } from './shaped.ts';
import type { NodeId } from './structure.ts';
import { type Mp, pt } from './units.ts';

export interface Run {
  readonly text: string;
  readonly look: Look;
  readonly node: NodeId;
  readonly to?: string;
  readonly page?: string;
  readonly chip?: boolean;
  /** Where it is not that of the text. */
  readonly language?: string;
}

/** Stands in the joined text for a page number: digits to the rules of line breaking. */
const pageMark = '8';
/** A chip says for which machine a step or a limit is, code what is to be typed: both must come through the last copy. */
const leastPrint = pt(8.5);
/** This part of the size of the words around it, as far as these allow. */
const smaller = (size: Mp, part: number): Mp => Math.max(Math.round(size * part), Math.min(size, leastPrint));

/** Most text is this, and needs no cleaning. */
const plain = /^[ -~]*$/;

const cleaned = (text: string): string =>
  plain.test(text)
    ? text
    : text
        .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
        .replace(/[\t\n\v\f\r\u0085\u2028\u2029]+/g, ' ')
        // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out here
        .replace(/[\u0000-\u001f\u007f-\u009f]/g, '')
        .normalize('NFC');

export function runsOf(inline: readonly Inline[], plainLook: Look, node: NodeId, kit: TextKit): Run[] {
  const runs: Run[] = [];
  const add = (text: string, look: Look, own: NodeId, to: string | undefined, language: string, made?: NodeId) => {
    const words = cleaned(text);
    if (words === '') return;
    const run: Run = to === undefined ? { text: words, look, node: own } : { text: words, look, node: own, to };
    if (language === kit.language) runs.push(run);
    else runs.push({ ...run, node: made ?? spanIn(own, language), language });
  };
  const spanIn = (own: NodeId, language: string): NodeId =>
    own < 0 || language === kit.language ? own : kit.structure.add(own, 'Span', { language });
  /** Words of the book, which says what of them is in another language than the text. */
  const say = (text: string, look: Look, own: NodeId = node, to?: string) => {
    const stretches = kit.spoken?.get(text);
    if (stretches === undefined) add(text, look, own, to, kit.language);
    else for (const stretch of stretches) add(stretch.text, look, own, to, stretch.language);
  };
  inline.forEach((one, index) => {
    const base: Look = one.changed ? { ...plainLook, barred: true } : plainLook;
    if (one.kind === 'link') {
      const look = { ...base, colour: kit.linkColour };
      const link = kit.structure.add(node, 'Link');
      const paged = one.page && (one.near === undefined || kit.away(one.near, one.anchor));
      // The page of a callout stands in the callout's own brackets.
      const own = paged && !one.bare && /^\([^()]*\)$/.test(one.text);
      say(own ? one.text.slice(0, -1) : one.text, look, link, one.anchor);
      if (paged) {
        const inside = !one.bare && (own || bracketOpen(inline, index));
        const [before = '', after = ''] = one.bare ? [] : (inside ? kit.words.pageInBrackets : kit.words.pageRef).split('{n}');
        // A short name and its page stay on one line.
        if (one.text !== '' && !inside) add(one.text.length < 12 ? '\u00a0' : ' ', look, link, one.anchor, kit.language);
        // A number is read in the language of the words around it.
        const numbered = one.bare ? link : spanIn(link, kit.printed);
        add(before, look, link, one.anchor, kit.printed, numbered);
        runs.push({ text: pageMark, look, node: numbered, to: one.anchor, page: one.anchor });
        add(after, look, link, one.anchor, kit.printed, numbered);
        const { through } = one;
        if (through !== undefined && (kit.pageBefore(through) === undefined || kit.pageBefore(through) !== kit.pageBefore(one.anchor))) {
          add('\u2013', look, numbered, one.anchor, kit.language);
          runs.push({ text: pageMark, look, node: numbered, to: one.anchor, page: through });
        }
        if (own) add(')', look, link, one.anchor, kit.language);
      }
    } else if (one.kind === 'chip') {
      runs.push({
        text: cleaned(one.text),
        look: { ...base, face: 'bold', size: smaller(base.size, 0.84) },
        node,
        chip: true,
      });
    } else if (one.kind === 'text') say(one.text, base);
    else {
      const face = one.kind === 'code' ? 'mono' : leaning(base.face, one.kind);
      const size = one.kind === 'code' ? smaller(base.size, 0.88) : base.size;
      say(one.text, { ...base, face, size });
    }
  });
  return runs;
}

/** For an element that is read aloud by other words than it shows: their language, where it is not that of the text. */
export function languageFacts(words: string, kit: Pick<TextKit, 'language' | 'spoken'>): { readonly language?: string } {
  const language = kit.spoken?.get(words)?.[0]?.language;
  return language === undefined || language === kit.language ? {} : { language };
}

/** The same for words that are all in one language. */
export const wholeLanguage = (words: string, kit: Pick<TextKit, 'language' | 'spoken'>): { readonly language?: string } =>
  kit.spoken?.get(words)?.length === 1 ? languageFacts(words, kit) : {};

/** For a bookmark, which has no language of its own. */
export const elementOf = (node: NodeId, { spoken }: Pick<TextKit, 'spoken'>): { readonly node?: NodeId } =>
  spoken === undefined ? {} : { node };

/** Emphasis in bold words leans and stays bold, and strong words in leaning ones lean on. */
function leaning(around: Face, kind: 'strong' | 'em' | 'strong-em'): Face {
  const bold = kind !== 'em' || around === 'bold' || around === 'boldItalic';
  const leans = kind !== 'strong' || around === 'italic' || around === 'boldItalic';
  return bold && leans ? 'boldItalic' : bold ? 'bold' : 'italic';
}

/** Whether a round bracket that was opened in the words before is still open. */
function bracketOpen(inline: readonly Inline[], until: number): boolean {
  let open = 0;
  for (let k = 0; k < until; k += 1)
    for (const letter of (inline[k] as Inline).text)
      if (letter === '(') open += 1;
      else if (letter === ')' && open > 0) open -= 1;
  return open > 0;
}
