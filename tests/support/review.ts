/** The one way from two texts to what changed, told as lines of text. */
import { checkLibrary, type LibraryFacts } from '../../procedures-schema/index.ts';
import { type Changed, compareGuides, compareTexts } from '../../procedures-schema/review/index.ts';
import { sample } from './sample.ts';

const LIP = 'procedures/OM-3140-lip-cylinder.md';

/** A sample procedure's text edited by `edit`, compared with what it was: "protection | step removed | Check 3 | was -> is". */
export async function whatChanged(edit: (text: string) => string, path = LIP): Promise<readonly string[]> {
  const files = (await sample()).texts.filter((file) => file.path === path || !file.path.startsWith('procedures/'));
  const text = files.find((file) => file.path === path)?.text ?? '';
  const edited = edit(text);
  if (edited === text) throw new Error('The edit changed nothing.');
  const facts = (own: string) => {
    const { facts: library } = checkLibrary(files.map((file) => (file.path === path ? { path, text: own } : file)));
    const [procedure] = library.procedures;
    if (!procedure) throw new Error('The procedure is not there.');
    return { facts: procedure, library };
  };
  return told(compareTexts(facts(text), facts(edited)));
}

/** A document of the sample, before and after an edit of another file of the library; both are read with their own registers. */
export async function inSample(path: string, edited: string, edit: (text: string) => string): Promise<readonly string[]> {
  const { texts, report } = await sample();
  const after = texts.map((file) => (file.path === edited ? { path: file.path, text: edit(file.text) } : file));
  if (after.every(({ text }, index) => text === texts[index]?.text)) throw new Error('The edit changed nothing.');
  return told(compareStates(report.facts, checkLibrary(after).facts, path));
}

function compareStates(before: LibraryFacts, after: LibraryFacts, path: string): readonly Changed[] {
  const guides = [before, after].map(({ guides: all }) => all.find(({ file }) => file === path));
  if (guides[0] && guides[1]) return compareGuides({ guide: guides[0], library: before }, { guide: guides[1], library: after });
  const [was, is] = [before, after].map(({ procedures }) => procedures.find(({ file }) => file === path));
  if (!was || !is) throw new Error('The document is not there.');
  return compareTexts({ facts: was, library: before }, { facts: is, library: after });
}

const told = (changes: readonly Changed[]): readonly string[] =>
  changes.map(({ kind, weight, about, before, after }) =>
    [weight, kind, about, [before, after].map((part) => part ?? '').join(' -> ')].join(' | '),
  );
