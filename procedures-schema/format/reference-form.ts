/** What a bracket's content is, as far as its own file can say (F3). Names are looked up by others. */
import { foldText } from './fold.ts';
import type { ReferenceForm } from './tree.ts';
import { isQuantity } from './unit-words.ts';

/** Ids and section titles of one file: what makes `step`, `section` and the like keywords. */
export interface FileNames {
  readonly ids: ReadonlySet<string>;
  /** Folded. */
  readonly titles: ReadonlySet<string>;
}

export const NO_NAMES: FileNames = { ids: new Set(), titles: new Set() };

/** Whether the form of what stands in `text` depends on the names of its file. */
export function needsFileNames(text: string): boolean {
  return /\[\s*(?:steps?|table|figure|section)\s+[^#\s]/i.test(text);
}

export function referenceForm(content: string, names: FileNames): ReferenceForm {
  const text = content.trim();
  if (/^\d{1,3}$/.test(text)) return { kind: 'callout', number: text };
  const keyword = /^(steps?|table|figure|section)\s+(.+)$/i.exec(text);
  const form = keyword ? keywordForm((keyword[1] ?? '').toLowerCase(), keyword[2] ?? '', names) : undefined;
  if (form) return form;
  if (isQuantity(text)) return { kind: 'second-value', value: text };
  const titled = /^([A-Za-z0-9][A-Za-z0-9./_-]*\d[A-Za-z0-9./_-]*)\s*:\s+(.+)$/.exec(text);
  if (titled) return { kind: 'section', document: titled[1] ?? '', title: (titled[2] ?? '').trim() };
  const anchored = /^([A-Za-z0-9][A-Za-z0-9./_-]*\d[A-Za-z0-9./_-]*)\s*#([a-z][a-z0-9-]*)$/.exec(text);
  if (anchored) return { kind: 'section', document: anchored[1] ?? '', id: anchored[2] ?? '' };
  return { kind: 'name', name: text };
}

function keywordForm(word: string, rest: string, names: FileNames): ReferenceForm | undefined {
  const id = (text: string): string | undefined => {
    const marked = /^#(\S+)$/.exec(text)?.[1];
    if (marked !== undefined) return marked;
    return names.ids.has(text) ? text : undefined;
  };
  if (word === 'section') {
    const marked = /^#(\S+)$/.exec(rest)?.[1];
    if (marked !== undefined) return { kind: 'section', id: marked };
    return names.titles.has(foldText(rest)) ? { kind: 'section', title: rest } : undefined;
  }
  if (word === 'steps') {
    const range = /^(\S+)\s*(?:to|through|-|–)\s*(\S+)$/.exec(rest);
    const from = range ? id(range[1] ?? '') : undefined;
    const to = range ? id(range[2] ?? '') : undefined;
    if (from !== undefined && to !== undefined) return { kind: 'steps', from, to };
    const one = id(rest);
    return one === undefined ? undefined : { kind: 'step', id: one };
  }
  const one = id(rest);
  if (one === undefined) return undefined;
  if (word === 'step') return { kind: 'step', id: one };
  return { kind: word === 'table' ? 'table' : 'figure', id: one };
}
