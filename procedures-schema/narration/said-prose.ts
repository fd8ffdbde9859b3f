/**
 * The words of a block as they are said: references in words, the condition before the action, second values and callouts left to the screen.
 * Numbers stay as written; `spoken.ts` says them.
 */
import type { ProcedureFacts } from '../checks/index.ts';
import type { Prose, ReferenceMark } from '../format/index.ts';
import { type LabelledStep, resolveReference } from '../numbering/index.ts';
import type { Reading } from '../reading/index.ts';
import { sentence, scriptWords as words } from './script-words.ts';

/** Where the words stand, and what the titles of other procedures are. */
export interface ProsePlace {
  readonly facts: ProcedureFacts;
  readonly titles: (number: string) => string | undefined;
  readonly from?: LabelledStep;
}

/** `reading` tells which sentences are orders; without it no condition is moved. */
export function saidProse(prose: Prose, place: ProsePlace, reading?: Reading): string {
  const orders = (reading?.sentences ?? []).filter(({ actions }) => actions.length > 0);
  let out = '';
  let at = 0;
  for (const order of orders) {
    const split = order.at >= at ? conditionLast(prose.text.slice(order.at, order.end)) : undefined;
    if (!split) continue;
    out += run(prose, at, order.at, place);
    const [action, condition] = [order.at + split.action, order.at + split.condition];
    const first = run(prose, condition, order.at + split.end, place);
    const then = run(prose, order.at, action, place);
    out += `${sentence(first).replace(/\.$/, '')}, ${lowerFirst(then.trim())}${prose.text.slice(order.at + split.end, order.end)}`;
    at = order.end;
  }
  out += run(prose, at, prose.text.length, place);
  return out
    .replace(/\s+/g, ' ')
    .replace(/ ([,.;:)])/g, '$1')
    .replace(/([.!?] )the /g, '$1The ')
    .trim();
}

/** As printed, second values and callouts in brackets: for the screen. */
export function shownProse(prose: Prose, place: ProsePlace): string {
  return run(prose, 0, prose.text.length, place, true).replace(/\s+/g, ' ').trim();
}

/** Words that open a condition at the end of an order; "until" and "before" do not: they say how long, or in which order. */
const CONDITION = /,? (?=(?:if|unless|in case|when|whenever|provided)\b)/gi;
/** Before these words "if" means "whether", or belongs to the word. */
const WHETHER =
  /\b(?:check|checks|see|ask|note|find out|look|say|tell|record|write down|as|even|only|until|decide|determine|feel|listen)$/i;

/** An order with its condition at the end ("Tighten the nut if it is loose."), as offsets into it. */
function conditionLast(text: string): { readonly action: number; readonly condition: number; readonly end: number } | undefined {
  if (/^(?:if|unless|when|whenever|in case|for|on|provided|otherwise)\b/i.test(text)) return undefined;
  const end = text.replace(/[\s.!]+$/, '').length;
  const found = [...text.matchAll(CONDITION)];
  const [only] = found;
  if (!only || found.length > 1) return undefined;
  const before = text.slice(0, only.index);
  const condition = text.slice(only.index + only[0].length, end);
  // What follows a second comma, colon or "and then" is no longer the condition's.
  if (WHETHER.test(before) || /[:;]/.test(before) || /[,:;]| and then /.test(condition)) return undefined;
  return { action: only.index, condition: only.index + only[0].length, end };
}

const lowerFirst = (text: string): string => (/^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text);

function run(prose: Prose, from: number, to: number, place: ProsePlace, shown = false): string {
  let out = '';
  let at = from;
  for (const mark of prose.marks) {
    if (mark.kind !== 'reference' || mark.at < at || mark.end > to) continue;
    out += prose.text.slice(at, mark.at) + reference(mark, place, shown);
    at = mark.end;
  }
  return out + prose.text.slice(at, Math.max(at, to));
}

function reference(mark: ReferenceMark, { facts, titles, from }: ProsePlace, shown: boolean): string {
  const { form } = mark;
  if (form.kind === 'second-value') return shown ? `(${form.value})` : '';
  if (form.kind === 'callout') return shown ? `(${form.number})` : '';
  if (form.kind === 'figure') return words.figure;
  if (form.kind === 'table') return words.table;
  const resolved = resolveReference(form, from, facts.tree, facts.read.labels, titles);
  const elsewhere = (section: LabelledStep['section']): string => (section === from?.section ? '' : ` ${words.of} ${section.title}`);
  switch (resolved.kind) {
    case 'step':
      return `${words.step} ${resolved.step.label}${elsewhere(resolved.step.section)}`;
    case 'range':
      return `${words.steps} ${resolved.from.label} ${words.to} ${resolved.to.label}${elsewhere(resolved.from.section)}`;
    case 'section':
      return `${form.kind === 'section' ? `${words.section} ` : ''}${resolved.section.title}`;
    case 'document':
      return form.kind === 'section' && form.title !== undefined ? `${resolved.number}, ${form.title}` : resolved.number;
    default:
      return mark.content;
  }
}
