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

/** Edits of one file with what they replaced, sorted; they count in the text before them. `had`, `has`: whether there was a text before and after. */
interface Turn {
  readonly path: string;
  readonly forth: readonly PlainEdit[];
  readonly back: readonly PlainEdit[];
  readonly had: boolean;
  readonly has: boolean;
  readonly bom: boolean;
}

/** What one undo takes back. */
interface Group {
  readonly title: string;
  readonly typing: boolean;
  readonly files: readonly Turn[];
  readonly at: number;
}

export interface Applied {
  readonly path: string;
  readonly edits: readonly PlainEdit[];
}

/** What an undo or a redo did. */
export interface Turned {
  readonly title: string;
  /** A text that is gone now has one edit that empties it. */
  readonly applied: readonly Applied[];
  /** Made or brought back here and saved since: the file on disk is not taken away by the way. */
  readonly left: readonly string[];
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

  /** The file as the disk has it now, instead of what this window knew of it. */
  fromDisk(path: string, raw: string, hash: string): Document {
    const bom = raw.startsWith('\uFEFF');
    const text = bom ? raw.slice(1) : raw;
    const document = { path, text, bom, base: hash, saved: text };
    this.forget(path);
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

  /** Somebody else took it away: of a text that is not there nothing can be undone. */
  gone(path: string): void {
    this.forget(path);
    this.all.delete(path);
  }

  /** Taken away by whoever sits here; undo brings it back as text that is not on disk. */
  remove(title: string, path: string): void {
    const document = this.all.get(path);
    if (!document) return;
    const { text, bom } = document;
    const [forth, back] = [[{ start: 0, end: text.length, text: '' }], [{ start: 0, end: 0, text }]];
    this.undos.push({ title, typing: false, at: 0, files: [{ path, forth, back, had: true, has: false, bom }] });
    this.redos = [];
    this.all.delete(path);
  }

  /** The file has another name; what was done to its text can be undone as before. */
  rename(from: string, to: string): void {
    const document = this.all.get(from);
    if (!document) return;
    this.forget(to);
    this.all.delete(from);
    this.all.set(to, { ...document, path: to });
    const moved = (groups: readonly Group[]): Group[] =>
      groups.map((group) => ({ ...group, files: group.files.map((one) => (one.path === from ? { ...one, path: to } : one)) }));
    this.undos = moved(this.undos);
    this.redos = moved(this.redos);
  }

  /** `now`: milliseconds, for joining what is typed in one go. */
  edit(title: string, files: readonly Applied[], now: number, typing = false): void {
    const group: Group = {
      title,
      typing,
      at: now,
      files: files.map(({ path, edits }) => {
        const before = this.all.get(path);
        return { path, forth: edits, back: this.put(path, edits), had: before !== undefined, has: true, bom: before?.bom ?? false };
      }),
    };
    const last = this.undos.at(-1);
    const joined = last && typing && last.typing && now - last.at < PAUSE ? follow(last, group) : undefined;
    if (joined) this.undos[this.undos.length - 1] = joined;
    else this.undos.push(group);
    this.redos = [];
  }

  undo(): Turned | undefined {
    const group = this.undos.pop();
    if (!group) return undefined;
    const { done, turned } = this.turn(group, (one) => ({ edits: one.back, from: one.has, to: one.had }));
    if (done.length > 0) this.redos.push({ ...group, files: done });
    return turned;
  }

  redo(): Turned | undefined {
    const group = this.redos.pop();
    if (!group) return undefined;
    const { done, turned } = this.turn(group, (one) => ({ edits: one.forth, from: one.had, to: one.has }));
    if (done.length > 0) this.undos.push({ ...group, files: done });
    return turned;
  }

  /** What undo and redo would do, for the menu. */
  get next(): { readonly undo: string | undefined; readonly redo: string | undefined } {
    return { undo: this.undos.at(-1)?.title, redo: this.redos.at(-1)?.title };
  }

  /** `from`, `to`: whether there must be a text for it, and whether there is one after it. */
  private turn(group: Group, way: (one: Turn) => { readonly edits: readonly PlainEdit[]; readonly from: boolean; readonly to: boolean }) {
    const left: string[] = [];
    const done = group.files.filter((one) => {
      const { edits, from, to } = way(one);
      const now = this.all.get(one.path);
      if ((now !== undefined) !== from || (!to && now?.base !== null)) {
        left.push(one.path);
        return false;
      }
      this.put(one.path, edits, one.bom);
      if (!to) this.all.delete(one.path);
      return true;
    });
    const applied = done.map((one) => ({ path: one.path, edits: way(one).edits }));
    return { done, turned: { title: group.title, applied, left } satisfies Turned };
  }

  /** Edits for a text that is gone would hit whatever comes to its place. */
  private forget(path: string): void {
    const without = (groups: readonly Group[]): Group[] =>
      groups
        .map((group) =>
          group.files.some((one) => one.path === path) ? { ...group, files: group.files.filter((one) => one.path !== path) } : group,
        )
        .filter(({ files }) => files.length > 0);
    this.undos = without(this.undos);
    this.redos = without(this.redos);
  }

  /** Changes the text and gives the edits that take it back, in offsets of the new text. */
  private put(path: string, edits: readonly PlainEdit[], bom = false): readonly PlainEdit[] {
    const before = this.all.get(path) ?? { path, text: '', bom, base: null, saved: '' };
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
  return { ...first, at: second.at, files: [{ ...a, forth: [forth], back: [back] }] };
}
