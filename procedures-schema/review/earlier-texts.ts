/** Which texts of an earlier state a comparison needs: the document, what it leads to, and the registers. A long library is not read twice for one page. */
import { guessHead } from '../format/index.ts';

/** Texts by path. */
export type Texts = Readonly<Record<string, string>>;

const isRegister = (path: string): boolean => path === 'library.yaml' || /^registers\/[^/]*\.ya?ml$/i.test(path);
const isDocument = (path: string): boolean => /^(procedures|guides)\/.*\.md$/i.test(path);

/**
 * `path` in the answer is where the document stood then: a file that got another name keeps its number. Undefined: it was not there. What a document leads
 * to is told by numbers that stand anywhere in its text: too much is read rather than too little.
 */
export function textsFor(all: Texts, path: string, number: string): { readonly path: string; readonly texts: Texts } | undefined {
  const documents = Object.entries(all).filter(([own]) => isDocument(own));
  const numbers = new Map(documents.map(([own, text]) => [own, guessHead(text)?.id]));
  const folder = path.slice(0, path.indexOf('/') + 1);
  const start = path in all ? path : documents.find(([own]) => own.startsWith(folder) && numbers.get(own) === number)?.[0];
  if (start === undefined) return undefined;
  const wanted = new Map([[start, all[start] ?? '']]);
  for (const text of wanted.values())
    for (const [own, theirs] of documents) {
      const named = numbers.get(own);
      // One whose number could not be guessed may be the one that is meant.
      if (!wanted.has(own) && (named === undefined || (named !== '' && text.includes(named)))) wanted.set(own, theirs);
    }
  const registers = Object.entries(all).filter(([own]) => isRegister(own));
  return { path: start, texts: Object.fromEntries([...registers, ...wanted]) };
}
