/** Writing back: edits laid on a text, and the text as bytes should hold it. Leaves making edits to whoever knows why. */
import { invariant } from '../invariant.ts';
import type { SourceText } from './tree.ts';

/** Only start, end and text matter here; `file` is the caller's to sort by. */
interface Replacement {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** All edits are places in the text as it is before any of them. Those at one place apply in the order given. */
export function applyEdits(text: string, edits: readonly Replacement[]): string {
  const ordered = edits.map((edit, order) => ({ edit, order }));
  ordered.sort((a, b) => a.edit.start - b.edit.start || a.edit.end - b.edit.end || a.order - b.order);
  let at = 0;
  const out: string[] = [];
  for (const { edit } of ordered) {
    invariant(
      edit.start >= at && edit.end >= edit.start && edit.end <= text.length,
      'edits of one text must lie inside it and must not overlap',
    );
    out.push(text.slice(at, edit.start), edit.text);
    at = edit.end;
  }
  out.push(text.slice(at));
  return out.join('');
}

export function writeBack(source: SourceText): string {
  return source.bom ? `\ufeff${source.text}` : source.text;
}
