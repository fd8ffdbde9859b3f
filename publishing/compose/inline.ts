/**
 * Running text as printed: references become words and links, second values stand in round brackets, or after a semicolon where these are open
 * already. Looks nothing up but where references lead.
 */
import { type LabelledStep, type Prose, type ReferenceMark, resolveReference } from '../../procedures-schema/index.ts';
import type { Inline } from '../book.ts';
import { decimalIn } from './language.ts';
import { chapterAnchor, type Scope, sectionAnchor, stepAnchor, thingAnchor } from './scope.ts';
import { settingAt } from './second-value.ts';
import { inUnits, valueBefore } from './units-edition.ts';

export function inlineOf(prose: Prose, scope: Scope, from?: LabelledStep): Inline[] {
  const out: Inline[] = [];
  const references = prose.marks.filter((mark): mark is ReferenceMark => mark.kind === 'reference');
  let at = 0;
  for (const mark of references) {
    if (mark.at < at) continue;
    const { units } = scope.input;
    const value =
      units !== undefined && mark.form.kind === 'second-value' ? valueBefore(prose, at, mark.at, decimalIn(scope.input)) : undefined;
    if (units !== undefined && value !== undefined && mark.form.kind === 'second-value') {
      out.push(...styled(prose, at, value));
      const first = prose.text.slice(value, mark.at).trimEnd();
      out.push({ kind: 'text', text: inUnits(first, mark.form.value, units, settingAt(prose.text, mark.at)) });
      at = mark.end;
      continue;
    }
    if (mark.form.kind === 'second-value') {
      const { before, after } = settingAt(prose.text, mark.at);
      // The writer's own space goes where the setting brings one.
      out.push(...styled(prose, at, Math.max(at, prose.text.slice(0, mark.at).trimEnd().length)));
      out.push({ kind: 'text', text: `${before}${mark.form.value}${after}` });
      at = mark.end;
      continue;
    }
    out.push(...styled(prose, at, mark.at));
    out.push(...reference(mark, scope, from));
    at = mark.end;
  }
  out.push(...styled(prose, at, prose.text.length));
  return pointed(held(out), scope, from);
}

/** The number of a callout stays on the line of the name that it belongs to. */
function held(inline: readonly Inline[]): Inline[] {
  return inline.map((one, index) => {
    if (one.kind === 'code') return one;
    const opens = /^\(\d{1,2}\)/.test(inline[index + 1]?.text ?? '');
    const text = one.text.replace(/ (?=\(\d{1,2}\))/g, '\u00a0');
    const said = opens ? text.replace(/ $/, '\u00a0') : text;
    return said === one.text ? one : { ...one, text: said };
  });
}

/** The same as words alone, for data files and headings. */
export const plainOf = (inline: readonly Inline[]): string => inline.map((one) => one.text).join('');

/** Text between two references, cut where strong, emphasis or code begin and end. */
function styled(prose: Prose, from: number, to: number): Inline[] {
  const marks = prose.marks.filter((mark) => mark.kind !== 'reference' && mark.at < to && mark.end > from);
  const cuts = [from, to, ...marks.flatMap((mark) => [Math.max(from, mark.at), Math.min(to, mark.end)])].sort((a, b) => a - b);
  const out: Inline[] = [];
  for (let k = 0; k + 1 < cuts.length; k += 1) {
    const [start, end] = [cuts[k] as number, cuts[k + 1] as number];
    if (start >= end) continue;
    const kinds = new Set(marks.filter((mark) => mark.at <= start && mark.end >= end).map((mark) => mark.kind));
    const [strong, em] = [kinds.has('strong'), kinds.has('em')];
    const kind = kinds.has('code') ? 'code' : strong && em ? 'strong-em' : strong ? 'strong' : em ? 'em' : 'text';
    out.push({ kind, text: prose.text.slice(start, end) });
  }
  return out;
}

function reference(mark: ReferenceMark, scope: Scope, from: LabelledStep | undefined): Inline[] {
  const { facts, words } = scope;
  const { form } = mark;
  const number = facts.head.id;
  const text = (said: string): Inline[] => [{ kind: 'text', text: said }];
  if (form.kind === 'callout') return text(`(${form.number})`);
  if (form.kind === 'figure' || form.kind === 'table') {
    const block = scope.byId.get(`${form.kind} ${form.id}`);
    const count = block === undefined ? undefined : (form.kind === 'figure' ? scope.figureNumbers : scope.tableNumbers).get(block);
    if (count === undefined) return text(mark.content);
    const anchor = thingAnchor(number, form.kind, count);
    const near = nearOf(true, number, from);
    const unlabelled = words[form.kind];
    return [{ kind: 'link', text: `${unlabelled} ${count}`, anchor, page: near.near !== undefined, unlabelled, ...near }];
  }
  const titles = (other: string): string | undefined => titleOf(other, scope);
  const resolved = resolveReference(form, from, facts.tree, facts.read.labels, titles);
  switch (resolved.kind) {
    case 'step': {
      const { step } = resolved;
      const near = step.section === from?.section;
      return [{ ...stepLink(step, near, scope), ...nearOf(near, number, from) }];
    }
    case 'range': {
      const { from: first, to: last } = resolved;
      const near = first.section === from?.section;
      const where = near ? '' : ` ${words.of} ${first.section.title}`;
      const range: Inline = {
        kind: 'link',
        text: `${words.steps} ${first.label} ${words.to} ${last.label}${where}`,
        anchor: stepAnchor(number, first.order),
        page: true,
        unlabelled: `${words.steps}${where}`,
        last: stepAnchor(number, last.order),
      };
      return [{ ...range, ...nearOf(near, number, from) }];
    }
    case 'section': {
      const keyword = form.kind === 'section' ? `${words.section} ` : '';
      return [{ kind: 'link', text: `${keyword}${resolved.section.title}`, anchor: sectionAnchor(number, resolved.section), page: true }];
    }
    case 'document':
      return documentReference(resolved.number, form.kind === 'section' ? form.title : undefined, scope);
    default:
      return text(mark.content);
  }
}

/** A step by its label; `near`: in the section that it is named in. */
export function stepLink({ label, section, order }: LabelledStep, near: boolean, { facts, words }: Scope): Inline {
  const where = near ? '' : ` ${words.of} ${section.title}`;
  const anchor = stepAnchor(facts.head.id, order);
  return { kind: 'link', text: `${words.step} ${label}${where}`, anchor, page: true, unlabelled: `${words.step}${where}` };
}

/** Callouts lead to their figure: the last one shown, or the first where none was yet. Where it is turned over, its page is said once in a sentence. */
function pointed(inline: Inline[], scope: Scope, from: LabelledStep | undefined): Inline[] {
  if (from === undefined || scope.figureNumbers.size === 0) return inline;
  let figure = 1;
  for (const [block, count] of scope.figureNumbers) if (block.span.start < from.step.span.end) figure = count;
  const id = scope.facts.head.id;
  const anchor = thingAnchor(id, 'figure', figure);
  const near = stepAnchor(id, from.order);
  let page = true;
  return inline.flatMap((one): Inline[] => {
    if (one.kind !== 'text' || !one.text.includes('(')) return [one];
    return one.text.split(/(\(\d{1,2}\))/).flatMap((text, index): Inline[] => {
      if (text === '') return [];
      if (index % 2 === 0) return [{ kind: 'text', text }];
      const link: Inline = { kind: 'link', text, anchor, page, near };
      page = false;
      return [link];
    });
  });
}

/** Within a section the page is named only where the leaf has to be turned. */
const nearOf = (near: boolean, number: string, from: LabelledStep | undefined): { readonly near?: string } =>
  near && from !== undefined ? { near: stepAnchor(number, from.order) } : {};

function documentReference(number: string, section: string | undefined, scope: Scope): Inline[] {
  const title = section ?? titleOf(number, scope);
  const said = title === undefined ? number : `${number}, ${title}`;
  if (!scope.inBook.has(number)) return [{ kind: 'text', text: said }];
  const other = scope.input.library.procedures.find(({ head }) => head.id === number);
  const place = section === undefined ? undefined : other?.tree.sections.find(({ title: own }) => own === section);
  return [{ kind: 'link', text: said, anchor: place === undefined ? chapterAnchor(number) : sectionAnchor(number, place), page: true }];
}

export const titleOf = (number: string, scope: Pick<Scope, 'input'>): string | undefined =>
  scope.input.library.procedures.find(({ head }) => head.id === number)?.head.title;
