/** Bookmarks as an outline (ISO 32000-1, 12.3.3): a tree by level, chapters open, the rest shut. */
import type { Bookmark, NodeId } from '../layout/index.ts';
import type { PdfFile } from './file.ts';
import { textString } from './strings.ts';

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

/** The object number of the outline; undefined where there is nothing to list. `elements`: object numbers of the headings' elements. */
export function writeOutline(bookmarks: readonly Bookmark[], file: PdfFile, elements: (node: NodeId) => number): number | undefined {
  const top = treeOf(bookmarks);
  if (top.length === 0) return undefined;
  const root = file.reserve(1);
  /** The first of the entries' numbers, which follow each other. */
  const writeLevel = (entries: readonly Entry[], parent: number): number => {
    const first = file.reserve(entries.length);
    entries.forEach(({ bookmark, children }, index) => {
      const own = first + index;
      const below = children.length === 0 ? undefined : writeLevel(children, own);
      const parts = [`<</Parent ${parent} 0 R/Title${textString(bookmark.title)}/Dest${textString(bookmark.anchor)}`];
      // An entry has no language; the element that it names has one.
      const element = bookmark.node === undefined ? 0 : elements(bookmark.node);
      if (element > 0) parts.push(`/SE ${element} 0 R`);
      if (index > 0) parts.push(`/Prev ${own - 1} 0 R`);
      if (index < entries.length - 1) parts.push(`/Next ${own + 1} 0 R`);
      if (below !== undefined) parts.push(`/First ${below} 0 R/Last ${below + children.length - 1} 0 R/Count ${-sizeOf(children)}`);
      file.begin(own).text(`${parts.join('')}>>`);
    });
    return first;
  };
  const first = writeLevel(top, root);
  file.begin(root).text(`<</Type/Outlines/First ${first} 0 R/Last ${first + top.length - 1} 0 R/Count ${top.length}>>`);
  return root;
}
