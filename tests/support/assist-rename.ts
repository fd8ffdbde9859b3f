/** What a renaming does to a library, as text: the changed lines, and what the checks and the reader then say otherwise. */
import { applyFileEdits, marginOf, type Named, rename, textsOf } from '../../procedures-schema/assist/index.ts';
import { placesIn } from '../../procedures-schema/assist/places.ts';
import { nameOf } from '../../procedures-schema/assist/rename.ts';
import { plural, singular } from '../../procedures-schema/assist/written-form.ts';
import { checkLibrary, type LibraryReport } from '../../procedures-schema/index.ts';

/** The changed lines, "-" before and "+" after; or "no: " and the reason. */
export function renaming(report: LibraryReport, named: Named, to: string): string {
  const answer = rename(named, to, report.facts);
  if (!answer.ok) return `no: ${answer.reason}`;
  return answer.files
    .flatMap(({ lines }) => lines.flatMap(({ before, after }) => [...before.map((line) => `-${line}`), ...after.map((line) => `+${line}`)]))
    .join('\n');
}

/** Everything with a name that the registers and heads know. */
export function allNamed(report: LibraryReport): readonly Named[] {
  const { facts } = report;
  const paths = [...facts.registerFiles.map(({ file }) => file.source.path), ...facts.procedures.map(({ file }) => file)];
  const out = new Map<string, Named>();
  for (const path of paths)
    for (const { named, role } of placesIn(path, facts)?.places ?? [])
      if (role === 'definition' || role === 'field') out.set(JSON.stringify(named), named);
  return [...out.values()];
}

/** The library's texts after a renaming; undefined where it is refused. */
function renamed(report: LibraryReport, named: Named, to: string): Map<string, string> | undefined {
  const answer = rename(named, to, report.facts);
  const texts = new Map(textsOf(report.facts));
  const applied = answer.ok ? applyFileEdits(answer.files, texts) : undefined;
  if (!applied?.ok) return undefined;
  for (const { path, text } of applied.texts) texts.set(path, text);
  return texts;
}

const library = (texts: ReadonlyMap<string, string>, paths: readonly string[] = []): LibraryReport =>
  checkLibrary(
    [...texts].map(([path, text]) => ({ path, text })),
    paths,
  );

/** All texts after a renaming and the renaming back, by path. */
export function thereAndBack(report: LibraryReport, named: Named, to: string): Readonly<Record<string, string>> {
  const there = renamed(report, named, to);
  if (!there) return {};
  const family = named.kind === 'thing' && named.thing === 'machine' ? { family: to } : {};
  const id = 'id' in named ? { id: to } : {};
  const number = named.kind === 'document' ? { number: to } : {};
  const title = named.kind === 'section' ? { title: to } : {};
  const name = 'name' in named ? { name: to } : {};
  const changed = { ...named, ...id, ...number, ...title, ...name, ...family } as Named;
  return Object.fromEntries(renamed(library(there), changed, nameOf(named)) ?? []);
}

/** Findings, readings and bands before and after, the new name put back; the first lines that differ. '' where all is the same, the reason where it is refused. */
export function differences(report: LibraryReport, paths: readonly string[], named: Named, to: string): string {
  const texts = renamed(report, named, to);
  if (!texts) return renaming(report, named, to);
  const after = library(texts, paths);
  const from = nameOf(named);
  const back = (text: string): string => {
    const last = (change: (word: string) => string) => (name: string) => name.replace(/\S+$/, change);
    let out = text.toLowerCase();
    for (const form of [last(plural), last(singular), (name: string) => name])
      out = out.replaceAll(form(to).toLowerCase(), from.toLowerCase());
    return out
      .replaceAll(last(plural)(from).toLowerCase(), from.toLowerCase())
      .replaceAll(last(singular)(from).toLowerCase(), from.toLowerCase())
      .replace(/\ban\b/g, 'a');
  };
  const [one, two] = [said(report).map(back).sort(), said(after).map(back).sort()];
  const first = one.findIndex((line, index) => line !== two[index]);
  return one.length === two.length && first === -1 ? '' : `${one[first] ?? ''}\n${two[first === -1 ? one.length : first] ?? ''}`;
}

function said({ facts, findings }: LibraryReport): readonly string[] {
  return [
    ...findings.map((finding) => `${finding.check} ${finding.file}:${finding.range.start.line} ${finding.message}`),
    ...facts.procedures.flatMap((procedure) =>
      marginOf(procedure, facts).lines.map(
        (line) =>
          `${procedure.file} ${line.label} ${line.before} ${line.hands.map(({ zone, things, sources }) => `${zone}: ${things.join()} by ${sources.join()}`).join(' ')} ${line.readings.map(({ status, words }) => `${status} ${words.join('; ')}`).join(' / ')}`,
      ),
    ),
  ].sort();
}
