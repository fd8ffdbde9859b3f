/** Completion in brackets: registered names, front-matter names, and the addresses of this text and of other procedures. */
import { foldText } from '../format/index.ts';
import { type At, type CompleteContext, cut, weightOf } from './complete-context.ts';
import type { Completion, Completions } from './model.ts';
import { namesHere } from './names-here.ts';
import { ranked } from './rank.ts';
import { clipped } from './reading-words.ts';

export function completeReference({ typed, replace, closed }: At<'reference'>, context: CompleteContext): Completions {
  const end = closed ? '' : ']';
  const caret = closed ? 1 : 0;
  const listed = listedNames(context);
  // A guide lists documents and names nothing else.
  const guide = /^guides\//.test(context.path);
  const names = (guide ? [] : namesHere(context.library, context.facts)).map(({ thing, spellings, detail, note }) => ({
    spellings,
    weight: weightOf(thing.kind) - (listed.has(foldText(thing.name)) ? 3 : 0),
    item: item(thing.kind, thing.name, detail, note, `${thing.name}${end}`),
  }));
  const all = [...names, ...addresses(context, end)];
  return cut(
    'reference',
    ranked(all, typed, ({ spellings, weight }) => ({ spellings, weight })).map(({ item: made }) => made),
  );

  function item(kind: Completion['kind'], label: string, detail: string, note: string, insert: string): Completion {
    return {
      kind,
      label,
      detail,
      ...(note === '' ? {} : { note }),
      insert,
      replace,
      ...(caret === 0 ? {} : { caret: insert.length + caret }),
    };
  }

  /** Steps, sections, tables and figures of this text, and other procedures. */
  function addresses({ text, library, facts, path }: CompleteContext, close: string) {
    const out: { readonly spellings: readonly string[]; readonly weight: number; readonly item: Completion }[] = [];
    const add = (kind: Completion['kind'], spellings: readonly string[], detail: string, note: string, insert: string): void => {
      out.push({ spellings, weight: weightOf(kind), item: item(kind, insert, detail, note, `${insert}${close}`) });
    };
    for (const found of (guide ? '' : text).matchAll(/^(.*)\{#([a-z][a-z0-9-]*)[^}\n]*\}(.*)$/gm)) {
      const id = found[2] ?? '';
      const before = (found[1] ?? '').trim();
      const rest = (found[3] ?? '').trim();
      if (before.startsWith('#')) continue;
      const step = facts?.read.labels.byId.get(id);
      if (before.startsWith('![')) add('figure', [`figure #${id}`, id], 'Figure', before.slice(2).split(']')[0] ?? '', `figure #${id}`);
      else if (/^(?:>\s*)*[\dA-Za-z(][\w.)]*$/.test(before)) {
        const label = step === undefined ? 'Step' : `Step ${step.fullLabel}`;
        add('step', [`step #${id}`, id, rest], label, clipped(rest), `step #${id}`);
      } else add('table', [`table #${id}`, id], 'Table', before, `table #${id}`);
    }
    for (const found of (guide ? '' : text).matchAll(/^#{2,6}[ \t]+(.+?)[ \t]*(?:\{[^}\n]*\})?[ \t]*\r?$/gm)) {
      const title = found[1] ?? '';
      const aside = /\baside\b/.test(found[0].slice(found[0].indexOf(title) + title.length));
      // "as in [Title]" is a call of a section apart; "go to [section Title]" a jump.
      const insert = aside ? title : `section ${title}`;
      add('section', [insert, title], aside ? 'Section that is called' : 'Section', '', insert);
    }
    const titled = /^([^\s:]*\d[^\s:]*)\s*:/.exec(typed)?.[1];
    for (const { head, file, tree } of library.procedures) {
      if (file === path || head.id === '') continue;
      // "OM-2220: " asks for a section of that procedure.
      if (head.id === titled)
        for (const section of tree.sections)
          add('section', [`${head.id}: ${section.title}`], `Section of ${head.id}`, head.title, `${head.id}: ${section.title}`);
      add('procedure', [head.id, head.title], head.title, '', head.id);
    }
    return out;
  }
}

/** Tools and the like that the front matter lists are wanted sooner. */
function listedNames({ facts }: CompleteContext): ReadonlySet<string> {
  if (!facts) return new Set();
  const { tools, consumables, parts, protection } = facts.head;
  return new Set([...tools, ...consumables, ...parts, ...protection].map(({ name }) => foldText(name)));
}
