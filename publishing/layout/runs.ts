/** Inline text to runs of one look and element, cleaned of what prints nothing. Leaves words and breaks to items.ts. */
import type { Inline } from '../book.ts';
import type { Look, TextKit } from './parts.ts';
import type { Face } from './shaped.ts';
import type { NodeId } from './structure.ts';
import { pt } from './units.ts';

export interface Run {
  readonly text: string;
  readonly look: Look;
  readonly node: NodeId;
  readonly to?: string;
  readonly page?: string;
  readonly chip?: boolean;
}

/** Stands in the joined text for a page number: digits to the rules of line breaking. */
const pageMark = '8';
/** A chip says for which machine a step or a limit is: it must come through the last copy. */
const leastChip = pt(8.5);

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
  const push = (text: string, look: Look, own: NodeId = node, to?: string) => {
    if (text !== '') runs.push(to === undefined ? { text, look, node: own } : { text, look, node: own, to });
  };
  inline.forEach((one, index) => {
    const base: Look = one.changed ? { ...plainLook, barred: true } : plainLook;
    if (one.kind === 'link') {
      const look = { ...base, colour: kit.linkColour };
      const link = kit.structure.add(node, 'Link');
      const paged = one.page && (one.near === undefined || kit.away(one.near, one.anchor));
      // The page of a callout stands in the callout's own brackets.
      const own = paged && !one.bare && /^\([^()]*\)$/.test(one.text);
      push(cleaned(own ? one.text.slice(0, -1) : one.text), look, link, one.anchor);
      if (paged) {
        const inside = !one.bare && (own || bracketOpen(inline, index));
        const [before = '', after = ''] = one.bare ? [] : (inside ? kit.words.pageInBrackets : kit.words.pageRef).split('{n}');
        // A short name and its page stay on one line.
        if (one.text !== '' && !inside) push(one.text.length < 12 ? '\u00a0' : ' ', look, link, one.anchor);
        push(before, look, link, one.anchor);
        runs.push({ text: pageMark, look, node: link, to: one.anchor, page: one.anchor });
        push(after, look, link, one.anchor);
        const { through } = one;
        if (through !== undefined && (kit.pageBefore(through) === undefined || kit.pageBefore(through) !== kit.pageBefore(one.anchor))) {
          push('\u2013', look, link, one.anchor);
          runs.push({ text: pageMark, look, node: link, to: one.anchor, page: through });
        }
        if (own) push(')', look, link, one.anchor);
      }
    } else if (one.kind === 'chip') {
      runs.push({
        text: cleaned(one.text),
        look: { ...base, face: 'bold', size: Math.max(Math.round(base.size * 0.84), Math.min(base.size, leastChip)) },
        node,
        chip: true,
      });
    } else if (one.kind === 'text') push(cleaned(one.text), base);
    else {
      const face = one.kind === 'code' ? 'mono' : leaning(base.face, one.kind);
      const size = one.kind === 'code' ? Math.round(base.size * 0.88) : base.size;
      push(cleaned(one.text), { ...base, face, size });
    }
  });
  return runs;
}

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
