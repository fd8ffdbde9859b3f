/**
 * What is read of a block, as one text to compare: labels, page numbers and the numbers of figures and tables left out, because a step that only moved
 * down is the same step. A reference is told by what it leads to. Compares nothing.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { BookBlock, Flow, Image, Inline, Task, TaskReading } from '../book.ts';

/** Where a reference leads, named alike in both texts; undefined while that is not known. */
export type Leads = (anchor: string) => string | undefined;

/** One word, or a whole reference. */
export function toldInline({ kind, text, ...more }: Inline, leads: Leads): string {
  if (kind !== 'link' || !('anchor' in more)) return `${kind} ${text.trim()}`;
  // Only a page number stands there.
  if (text === '') return 'link';
  // A label may be another one where the place is the same.
  if (more.unlabelled === undefined) return `link ${text.trim()}`;
  const where = [more.anchor, more.last].map((anchor) => (anchor === undefined ? '' : (leads(anchor) ?? '')));
  return `link ${where.join(' ')} ${more.unlabelled}`;
}

const inlineTold = (inline: readonly Inline[], leads: Leads): string =>
  inline
    .map((one) => (one.kind === 'link' ? ` ${toldInline(one, leads)} ` : one.text))
    .join('')
    .replace(/\s+/g, ' ')
    .trim();
/** Which procedures ask for a thing is no news about the thing: these have bars of their own. */
const asks = (cell: readonly Inline[]): boolean =>
  cell.some((one) => one.kind === 'link' && !one.page && one.near === undefined && one.unlabelled === undefined);
export const rowTold = (row: readonly (readonly Inline[])[], leads: Leads): string =>
  row.map((cell) => (asks(cell) ? '' : inlineTold(cell, leads))).join(' | ');
export const flowTold = (flow: Flow, leads: Leads): string => flow.map((block) => told(block, leads)).join('\n');

/** Without the number in front. */
export const captionTold = (caption: string | undefined): string => (caption ?? '').replace(/^\p{L}+ \d+\. ?/u, '');

export function told(block: BookBlock, leads: Leads): string {
  switch (block.kind) {
    case 'heading':
      return `h${block.level} ${block.text}`;
    case 'paragraph':
      return inlineTold(block.inline, leads);
    case 'bullets':
      return block.items.map((item) => `- ${flowTold(item, leads)}`).join('\n');
    case 'step':
      return ['step', ...block.notices.map((notice) => told(notice, leads)), flowTold(block.body, leads)].join('\n');
    case 'notice':
      return `${block.panel}\n${flowTold(block.body, leads)}`;
    case 'table':
      return [
        captionTold(block.caption),
        ...[block.head, ...block.rows].map((row) => rowTold(row, leads)),
        flowTold(block.notes ?? [], leads),
      ].join('\n');
    case 'figure':
      if (block.unmarked) return 'figure';
      return `${block.alt}\n${captionTold(block.caption)}\n${imageTold(block.image)}`;
    case 'write-in':
      return `${block.label} ${block.unit ?? ''}`;
    case 'entries':
      return block.rows.map((row) => row.map(({ label, options = [] }) => [label, ...options].join(' ')).join(' | ')).join('\n');
    case 'choice':
      return `${block.label} ${block.choices.join(' ')}`;
    case 'tasks':
      return [
        `${block.heading} ${block.aside ?? ''}`,
        ...block.items.map((item) => (item.kind === 'task' ? taskTold(item, leads) : told(item, leads))),
      ].join('\n');
    default:
      return block.kind;
  }
}

/** A line to tick off: its words, what guards it, and what is written in. */
export const taskTold = (task: Task, leads: Leads): string =>
  [
    ...task.notices.map((notice) => told(notice, leads)),
    `${task.remark ? 'said' : 'done'} ${inlineTold(task.line, leads)}`,
    ...(task.initials === undefined ? [] : [`initials ${task.initials}`]),
    ...task.readings.map(readingTold),
  ].join('\n');

export const readingTold = ({ name, limits, boxes, unit, verdict }: TaskReading): string =>
  [name, ...limits.map(({ model = '', text }) => `${model} ${text}`), ...boxes, unit, verdict?.pass ?? '', verdict?.fail ?? ''].join(' | ');

/** Pure memory: the same bytes are the same picture. */
const pictures = new WeakMap<Uint8Array, string>();

/** A picture by what is in its file. */
export function imageTold(image: Image): string {
  if (image.kind === 'svg') return image.source.replace(/\r\n?/g, '\n');
  if (image.kind === 'missing') return `missing ${image.path}`;
  const known = pictures.get(image.bytes) ?? bytesToHex(sha256(image.bytes));
  pictures.set(image.bytes, known);
  return `${image.kind} ${known}`;
}
