/**
 * Random documents for the layout engine, and what of each must be found on its pages again: every word in order, where marked places stand, which
 * steps are guarded. Words are a mix of prose, values with units, codes, very long words and scripts no print font here has.
 */
import type { Book, BookBlock, Chapter, Flow, Inline, NoticeBlock } from '../../publishing/book.ts';
import { randomFrom } from './random.ts';

/** A step with notices: the marks printed in the first and last of its notices and in its own first line. */
export interface Guarded {
  readonly anchor: string;
  readonly firstNotice: string;
  readonly lastNotice: string;
  readonly step: string;
}

export interface RandomBook {
  readonly book: Book;
  /** Mark printed in the block an anchor stands on. */
  readonly marks: ReadonlyMap<string, string>;
  readonly guarded: readonly Guarded[];
}

const prose =
  'the remove cover loosen tighten clearance hydraulic accumulator procedure authorized technician measurement isolate restrained between of and at to by under until shown gauge valve spring seal edge lower upper carefully straightforward environmental lubricating'.split(
    ' ',
  );
const odd = [
  '4 mm',
  '0.15 in',
  '12 N·m',
  'M8 × 20',
  'Fig. 3',
  'step 4a',
  'DL-25/DL-30',
  'up/down',
  'half-turn',
  'e\u0301t\u00e9',
  '(see',
  'below)',
  '“quoted”',
  '3–5',
  '\u05d9\u05d3\u05d9\u05ea',
  '\u{1F527}',
  'a\u00adb',
  '\u200bx',
  'O-ring',
  '—',
  '90\u00a0°C',
];
/** An empty frame with a line in it: enough to have a size and to be drawn. */
const svg = (width: number, height: number): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}"><rect x="1" y="1" width="${width - 2}" height="${height - 2}" fill="none" stroke="#000"/><path d="M0 0L${width} ${height}" stroke="#000"/></svg>`;

/** `size` is about the number of blocks; the same numbers give the same book. */
export function randomBook(seed: number, size: number): RandomBook {
  const below = randomFrom(seed * 2 + 1);
  for (let k = 0; k < 8; k += 1) below(2);
  const chance = (percent: number): boolean => below(100) < percent;
  const pick = <T>(from: readonly T[]): T => from[below(from.length)] as T;
  const marks = new Map<string, string>();
  const guarded: Guarded[] = [];
  const anchors: string[] = [];
  let made = 0;
  const mark = (): string => `zq${++made}xz`;

  const word = (): string => {
    const kind = below(100);
    if (kind < 82) return pick(prose);
    if (kind < 97) return pick(odd);
    if (kind < 99) return pick(prose).repeat(1 + below(12));
    return '\u{1F9F0}\ue123';
  };
  const words = (most: number): string => Array.from({ length: 1 + below(most) }, word).join(' ');
  const inlines = (most: number): Inline[] => {
    const out: Inline[] = [];
    for (let left = 1 + below(4); left > 0; left -= 1) {
      const text = `${words(Math.max(1, Math.ceil(most / 4)))} `;
      const kind = below(20);
      if (kind < 11) out.push({ kind: 'text', text });
      else if (kind < 13) out.push({ kind: 'strong', text });
      else if (kind < 14) out.push({ kind: 'em', text });
      else if (kind < 15) out.push({ kind: 'strong-em', text });
      else if (kind === 15) out.push({ kind: 'code', text });
      else if (kind === 16)
        out.push({ kind: 'chip', text: `only ${pick(['DL-20', 'VB-60 with heater', 'x'])}` }, { kind: 'text', text: ' ' });
      else if (kind === 17) out.push({ kind: 'text', text: chance(20) ? '' : `${'long'.repeat(30)} ` });
      else {
        const anchor = anchors.length === 0 || chance(4) ? 'nowhere' : pick(anchors);
        out.push({ kind: 'link', text: text.trim(), anchor, page: chance(70) }, { kind: 'text', text: ' ' });
      }
    }
    return out;
  };
  const paragraph = (most: number): BookBlock => ({
    kind: 'paragraph',
    inline: inlines(most),
    ...(chance(15) ? { style: pick(['lead', 'small', 'center', 'state'] as const) } : {}),
  });
  const cells = (count: number): Inline[][] =>
    Array.from({ length: count }, () => (chance(8) ? [] : chance(4) ? inlines(120) : inlines(6)));
  const table = (): BookBlock => {
    const columns = 1 + below(chance(20) ? 9 : 4);
    const rows = 1 + below(chance(15) ? 60 : 7);
    return {
      kind: 'table',
      head: chance(80) ? Array.from({ length: columns }, () => inlines(chance(5) ? 30 : 3)) : [],
      rows: Array.from({ length: rows }, () => cells(Math.max(1, columns - (chance(5) ? 1 : 0)))),
      align: Array.from({ length: columns }, () => pick(['left', 'center', 'right'] as const)),
      ...(chance(60) ? { caption: words(chance(10) ? 40 : 8) } : {}),
      ...(chance(25) ? { notes: [paragraph(20)] } : {}),
    };
  };
  const notice = (first: Inline, last: Inline, depth: number): NoticeBlock => {
    const body: BookBlock[] = [{ kind: 'paragraph', inline: [first, ...inlines(chance(6) ? 900 : 24)] }];
    if (chance(15)) body.push(bullets(depth + 1));
    body.push({ kind: 'paragraph', inline: [...inlines(6), last] });
    return { kind: 'notice', word: pick(['danger', 'warning', 'caution', 'notice'] as const), panel: pick(['DANGER', 'WARNING']), body };
  };
  let governed = 0;
  /** Most of them guard what follows up to the next heading. */
  const governing = (one: NoticeBlock): NoticeBlock => {
    governed += 1;
    if (one.word === 'notice') return one;
    const hazard = words(chance(10) ? 60 : 8);
    return { ...one, recall: { anchor: `governs ${governed}`, hazard } };
  };
  const text = (said: string): Inline => ({ kind: 'text', text: `${said} ` });
  const bullets = (depth: number): BookBlock => ({
    kind: 'bullets',
    items: Array.from(
      { length: 1 + below(4) },
      (): Flow => (chance(5) ? [] : [paragraph(20), ...(depth < 2 && chance(15) ? [bullets(depth + 1)] : [])]),
    ),
  });
  const figure = (): BookBlock => ({
    kind: 'figure',
    alt: words(4),
    image: chance(5) ? { kind: 'missing', path: 'figures/none.svg' } : { kind: 'svg', source: svg(40 + below(900), 40 + below(900)) },
    ...(chance(70) ? { caption: words(14) } : {}),
  });
  const stepBand = () => pick(['live', 'cut', 'safe', 'open', 'unknown'] as const);
  const steps = (count: number, depth: number): BookBlock[] =>
    Array.from({ length: count }, (_, index): BookBlock => {
      const anchor = `step ${++made}`;
      const own = mark();
      marks.set(anchor, own);
      anchors.push(anchor);
      const notices: NoticeBlock[] = [];
      if (chance(22)) {
        const ends = Array.from({ length: 1 + below(chance(20) ? 3 : 1) }, () => [mark(), mark()] as const);
        for (const [first, last] of ends) notices.push(notice(text(first), text(last), depth));
        const [firstNotice] = ends[0] as readonly [string, string];
        const [, lastNotice] = ends[ends.length - 1] as readonly [string, string];
        guarded.push({ anchor, firstNotice, lastNotice, step: own });
      }
      const body: BookBlock[] = [{ kind: 'paragraph', inline: [text(own), ...inlines(notices.length > 0 && chance(12) ? 1500 : 24)] }];
      if (chance(12)) body.push(paragraph(30));
      if (chance(10)) body.push({ kind: 'write-in', label: words(6), ...(chance(70) ? { unit: pick(['mm', 'N·m', '°C']) } : {}) });
      if (chance(6))
        body.push({
          kind: 'choice',
          label: words(8),
          choices: chance(80) ? ['Passes', 'Fails'] : [words(5), words(12), 'No'],
          field: mark(),
        });
      if (chance(8)) body.push(bullets(1));
      if (chance(4)) body.push(figure());
      if (chance(4)) body.push(table());
      if (chance(3)) body.push(notice(text(''), text(''), depth));
      if (depth < 2 && chance(14)) body.push(...steps(1 + below(chance(15) ? 40 : 4), depth + 1));
      return {
        kind: 'step',
        label: depth === 0 ? String(index + 1) : depth === 1 ? `${String.fromCharCode(97 + (index % 26))}` : `${index + 1}`,
        anchor,
        depth: 0,
        body,
        notices,
        ...(depth === 0 && chance(85) ? { band: stepBand() } : {}),
        ...(chance(70) ? { safeAfter: chance(60) } : {}),
      };
    });

  const heading = (): BookBlock[] => {
    const anchor = `heading ${++made}`;
    const own = mark();
    marks.set(anchor, own);
    anchors.push(anchor);
    return [
      { kind: 'heading', level: pick([2, 2, 3, 4] as const), text: `${own} ${words(chance(5) ? 25 : 5)}`, anchor, bookmark: chance(70) },
      ...(chance(60) ? [paragraph(40)] : steps(1 + below(5), 0)),
    ];
  };
  const block = (): BookBlock[] => {
    const kind = below(100);
    if (kind < 26) return [paragraph(chance(10) ? 400 : 60)];
    if (kind < 38) return heading();
    if (kind < 62) return steps(1 + below(8), 0);
    if (kind < 72) return [bullets(0)];
    if (kind < 82) return [table()];
    if (kind < 88) return [figure()];
    if (kind < 91) return [governing(notice(text(''), text(''), 0)), paragraph(20)];
    if (kind < 93) return [{ kind: 'rule' }, paragraph(10)];
    if (kind < 95) return [{ kind: 'page-break', ...(chance(30) ? { to: 'right' as const } : {}) }, paragraph(10)];
    if (kind < 97) return [{ kind: 'space', lines: below(6) }, paragraph(10)];
    return [{ kind: 'write-in', label: words(5) }];
  };
  const chapter = (index: number, blocks: Flow): Chapter => {
    const anchor = `chapter ${index}`;
    const own = mark();
    marks.set(anchor, own);
    anchors.push(anchor);
    return {
      title: `${own} ${words(5)}`,
      anchor,
      startRight: chance(50),
      blocks,
      ...(chance(50) ? { number: 'OM-1', revision: 'A' } : {}),
    };
  };
  const body: Chapter[] = [];
  let left = size;
  for (let index = 1; left > 0 || index === 1; index += 1) {
    const take = Math.min(left, 1 + below(Math.max(2, size)));
    left -= take;
    body.push(chapter(index, [paragraph(30), ...Array.from({ length: take }, block).flat()]));
  }
  const contents: Chapter = {
    title: 'Contents',
    anchor: 'contents',
    unlisted: true,
    startRight: chance(50),
    blocks: [{ kind: 'contents', depth: 3 }],
  };
  const book: Book = {
    title: words(6),
    number: 'OM-1',
    publisher: 'Orrfen Machines',
    language: 'en',
    paper: pick(['a4', 'letter', 'a5']),
    binding: pick(['left', 'top', 'none']),
    duplex: chance(50),
    draft: chance(20),
    ...(chance(50) ? { footLine: 'Uncontrolled when printed.' } : {}),
    ...(chance(30) ? { cover: [{ kind: 'paragraph', style: 'title', inline: inlines(6) }] } : {}),
    chapters: chance(60) ? [contents, ...body] : body,
  };
  return { book, marks, guarded };
}
