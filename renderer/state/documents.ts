/**
 * The texts of the library as this window has them: what is on disk, what is written since, and one journal of edits over all files for
 * undo and redo. Pure memory: the host and the editor are told by whoever changes it.
 */

export interface PlainEdit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export interface Document {
  readonly path: string;
  /** Without a byte-order mark; offsets count in it. */
  readonly text: string;
  readonly bom: boolean;
  /** Name of the bytes on disk that `saved` is; null: not on disk. */
  readonly base: string | null;
  readonly saved: string;
}

/** What one undo takes back: edits of one or several files, each with what it replaced. Edits of a file are sorted and count in the text before them. */
interface Group {
  readonly title: string;
  readonly typing: boolean;
  readonly files: readonly { readonly path: string; readonly forth: readonly PlainEdit[]; readonly back: readonly PlainEdit[] }[];
  readonly at: number;
}

export interface Applied {
  readonly path: string;
  readonly edits: readonly PlainEdit[];
}

/** Typing within this many milliseconds is taken back in one go. */
const PAUSE = 800;

export class Documents {
  private readonly all = new Map<string, Document>();
  private undos: Group[] = [];
  private redos: Group[] = [];

  get(path: string): Document | undefined {
    return this.all.get(path);
  }

  list(): readonly Document[] {
    return [...this.all.values()];
  }

  unsaved(): readonly Document[] {
    return this.list().filter(({ text, saved, base }) => base === null || text !== saved);
  }

  /** The file as the disk has it now. */
  fromDisk(path: string, raw: string, hash: string): Document {
    const bom = raw.startsWith('\uFEFF');
    const text = bom ? raw.slice(1) : raw;
    const document = { path, text, bom, base: hash, saved: text };
    this.all.set(path, document);
    return document;
  }

  /** Null: it is known that the disk has no such file. */
  saved(path: string, text: string, hash: string | null): void {
    const document = this.all.get(path);
    if (document) this.all.set(path, { ...document, base: hash, saved: text });
  }

  /** Its text was written over these bytes, whatever the disk holds now: saving it asks first. */
  over(path: string, base: string | null): void {
    const document = this.all.get(path);
    if (document) this.all.set(path, { ...document, base });
  }

  gone(path: string): void {
    this.all.delete(path);
  }

  /** `now`: milliseconds, for joining what is typed in one go. */
  edit(title: string, files: readonly Applied[], now: number, typing = false): void {
    const group: Group = {
      title,
      typing,
      at: now,
      files: files.map(({ path, edits }) => ({ path, forth: edits, back: this.turn(path, edits) })),
    };
    const last = this.undos.at(-1);
    const joined = last && typing && last.typing && now - last.at < PAUSE ? follow(last, group) : undefined;
    if (joined) this.undos[this.undos.length - 1] = joined;
    else this.undos.push(group);
    this.redos = [];
  }

  undo(): readonly Applied[] | undefined {
    const group = this.undos.pop();
    if (!group) return undefined;
    this.redos.push(group);
    const applied = group.files.map(({ path, back }) => ({ path, edits: back }));
    for (const { path, edits } of applied) this.turn(path, edits);
    return applied;
  }

  redo(): readonly Applied[] | undefined {
    const group = this.redos.pop();
    if (!group) return undefined;
    this.undos.push(group);
    const applied = group.files.map(({ path, forth }) => ({ path, edits: forth }));
    for (const { path, edits } of applied) this.turn(path, edits);
    return applied;
  }

  /** What undo and redo would do, for the menu. */
  get next(): { readonly undo: string | undefined; readonly redo: string | undefined } {
    return { undo: this.undos.at(-1)?.title, redo: this.redos.at(-1)?.title };
  }

  /** Changes the text and gives the edits that take it back, in offsets of the new text. */
  private turn(path: string, edits: readonly PlainEdit[]): readonly PlainEdit[] {
    const before = this.all.get(path) ?? { path, text: '', bom: false, base: null, saved: '' };
    const back: PlainEdit[] = [];
    let text = '';
    let from = 0;
    for (const edit of [...edits].sort((a, b) => a.start - b.start || a.end - b.end)) {
      text += before.text.slice(from, edit.start);
      back.push({ start: text.length, end: text.length + edit.text.length, text: before.text.slice(edit.start, edit.end) });
      text += edit.text;
      from = edit.end;
    }
    this.all.set(path, { ...before, text: text + before.text.slice(from) });
    return back;
  }
}

/** One group out of two when the second goes on typing where the first ended. */
function follow(first: Group, second: Group): Group | undefined {
  const [a, b] = [first.files[0], second.files[0]];
  if (first.files.length !== 1 || second.files.length !== 1 || !a || !b || a.path !== b.path) return undefined;
  const [fa, fb, ba, bb] = [a.forth[0], b.forth[0], a.back[0], b.back[0]];
  if (a.forth.length !== 1 || b.forth.length !== 1 || !fa || !fb || !ba || !bb) return undefined;
  if (fb.start !== fa.start + fa.text.length || fb.end !== fb.start) return undefined;
  const forth = { ...fa, text: fa.text + fb.text };
  const back = { start: ba.start, end: ba.end + fb.text.length, text: ba.text };
  return { ...first, at: second.at, files: [{ path: a.path, forth: [forth], back: [back] }] };
}
