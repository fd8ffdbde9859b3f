/** The one way from two texts to what changed, told as lines of text. */
import { checkLibrary } from '../../procedures-schema/index.ts';
import { compareTexts } from '../../procedures-schema/review/index.ts';
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
  return compareTexts(facts(text), facts(edited)).map(({ kind, weight, about, before, after }) =>
    [weight, kind, about, [before, after].map((part) => part ?? '').join(' -> ')].join(' | '),
  );
}
