/** Help for a writer, as text: the fixture library with one procedure in which `¦` marks the caret. */
import { complete, definitionOf, hover, type Margin, marginOf } from '../../procedures-schema/assist/index.ts';
import { type CheckCase, checkLibrary, type LibraryFacts, type LibraryReport, type ProcedureFacts } from '../../procedures-schema/index.ts';
import { expandCase } from './cases.ts';

export const FX = 'procedures/FX-100.md';

export type FixtureChange = Omit<CheckCase, 'name' | 'finds'>;

export interface AssistFixture {
  readonly library: LibraryFacts;
  readonly report: LibraryReport;
  readonly facts: ProcedureFacts;
  readonly texts: readonly { readonly path: string; readonly text: string }[];
  /** Of the file that holds the caret. */
  readonly path: string;
  readonly text: string;
  readonly offset: number;
}

export function assistFixture(change: FixtureChange = {}): AssistFixture {
  let at: { path: string; offset: number } | undefined;
  const texts = expandCase({ name: '', finds: 0, ...change }).files.map(({ path, text }) => {
    const offset = text.indexOf('¦');
    if (offset !== -1) at = { path, offset };
    return { path, text: text.replace('¦', '') };
  });
  const report = checkLibrary(texts);
  const path = at?.path ?? FX;
  return {
    library: report.facts,
    report,
    facts: report.facts.procedures.find(({ file }) => file === FX) as ProcedureFacts,
    texts,
    path,
    text: texts.find((file) => file.path === path)?.text ?? '',
    offset: at?.offset ?? 0,
  };
}

/** The first completions as "kind label", after the place. */
export function offered(change: FixtureChange, count = 4): string {
  const { library, path, text, offset } = assistFixture(change);
  const { place, items } = complete(path, offset, text, library);
  return [place, ...items.slice(0, count).map(({ kind, label }) => `${kind} ${label}`)].join('\n');
}

/** The lines around the caret after taking the first completion with that label; `¦` where the caret then stands. */
export function taken(change: FixtureChange, label: string): string {
  const { library, path, text, offset } = assistFixture(change);
  const item = complete(path, offset, text, library).items.find((one) => one.label === label);
  if (!item) return `no ${label}`;
  const caret = item.caret ?? item.insert.length;
  const from = text.lastIndexOf('\n', item.replace.start - 1) + 1;
  const to = text.indexOf('\n', item.replace.end);
  const line = text.slice(from, item.replace.start) + item.insert + text.slice(item.replace.end, to === -1 ? text.length : to);
  const at = item.replace.start - from + caret;
  return `${line.slice(0, at)}¦${line.slice(at)}`;
}

export function marginText(margin: Margin, section?: string): string {
  return margin.lines
    .filter((line) => section === undefined || line.section === section)
    .map((line) =>
      [
        `${line.fullLabel} ${line.before}${line.after === undefined ? '' : ` to ${line.after}`}`,
        ...line.hands.map(({ zone, things }) => `  hands in ${zone}: ${things.join(', ')}`),
        ...line.measured.map(({ name, limits }) => `  ${name}: ${limits.join('; ')}`),
        ...line.readings.map(({ status, earns, words }) => `  ${status}${earns ? '*' : ''} ${words.join('; ')}`),
      ].join('\n'),
    )
    .join('\n');
}

export function marginOfFile(library: LibraryFacts, path: string): Margin {
  const facts = library.procedures.find(({ file }) => file === path);
  if (!facts) throw new Error(`no ${path}`);
  return marginOf(facts, library);
}

export function marginOfFixture(change: FixtureChange = {}, variant?: string): Margin {
  const { facts, library } = assistFixture(change);
  return marginOf(facts, library, variant);
}

/** Everything said at the caret: "kind title" and the lines below it. */
export function hovered(change: FixtureChange): string {
  const { library, path, offset } = assistFixture(change);
  return hover(path, offset, library)
    .map(({ kind, title, lines }) => [`${kind} ${title}`, ...lines.map((line) => `  ${line}`)].join('\n'))
    .join('\n');
}

/** "file:line" of where going from the caret leads, and the line's text. */
export function gone(change: FixtureChange): string {
  const { library, path, offset, texts } = assistFixture(change);
  const place = definitionOf(path, offset, library);
  if (!place) return 'nowhere';
  return `${place.file}: ${texts
    .find((file) => file.path === place.file)
    ?.text.split('\n')
    [place.line - 1]?.trim()}`;
}
