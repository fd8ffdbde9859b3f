/** Bookmarks as an outline (ISO 32000-1, 12.3.3): a tree by level, chapters open, the rest shut. */
import { type PDFContext, type PDFDict, PDFHexString, PDFName, type PDFRef } from 'pdf-lib';
import type { Bookmark } from '../layout/index.ts';

interface Entry {
  readonly bookmark: Bookmark;
  readonly children: Entry[];
}

function treeOf(bookmarks: readonly Bookmark[]): Entry[] {
  const top: Entry[] = [];
  const open: { level: number; entry: Entry }[] = [];
  for (const bookmark of bookmarks) {
    const entry: Entry = { bookmark, children: [] };
    while (open.length > 0 && (open[open.length - 1]?.level ?? 0) >= bookmark.level) open.pop();
    (open[open.length - 1]?.entry.children ?? top).push(entry);
    open.push({ level: bookmark.level, entry });
  }
  return top;
}

const sizeOf = (entries: readonly Entry[]): number => entries.reduce((sum, entry) => sum + 1 + sizeOf(entry.children), 0);

/** undefined where there is nothing to list. */
export function writeOutline(bookmarks: readonly Bookmark[], context: PDFContext): PDFRef | undefined {
  const top = treeOf(bookmarks);
  if (top.length === 0) return undefined;
  const root = context.nextRef();
  const writeLevel = (entries: readonly Entry[], parent: PDFRef): { first: PDFRef; last: PDFRef } => {
    const refs = entries.map(() => context.nextRef());
    entries.forEach((entry, index) => {
      const ref = refs[index] as PDFRef;
      const dict = context.obj({ Parent: parent }) as PDFDict;
      dict.set(PDFName.of('Title'), PDFHexString.fromText(entry.bookmark.title));
      dict.set(PDFName.of('Dest'), PDFHexString.fromText(entry.bookmark.anchor));
      if (index > 0) dict.set(PDFName.of('Prev'), refs[index - 1] as PDFRef);
      if (index < refs.length - 1) dict.set(PDFName.of('Next'), refs[index + 1] as PDFRef);
      if (entry.children.length > 0) {
        const { first, last } = writeLevel(entry.children, ref);
        dict.set(PDFName.of('First'), first);
        dict.set(PDFName.of('Last'), last);
        dict.set(PDFName.of('Count'), context.obj(-sizeOf(entry.children)));
      }
      context.assign(ref, dict);
    });
    return { first: refs[0] as PDFRef, last: refs[refs.length - 1] as PDFRef };
  };
  const { first, last } = writeLevel(top, root);
  context.assign(root, context.obj({ Type: 'Outlines', First: first, Last: last, Count: top.length }));
  return root;
}
