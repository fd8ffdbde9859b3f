/** A book with the quotation marks and apostrophes of the languages its words are in, wherever words are printed. Names that nobody reads (anchors, form fields) stay. */
import type { Book, BookBlock, Chapter, EntryCell, Flow, Inline, Task, TaskReading, TasksBlock } from '../book.ts';
import { quoteMarks } from './quote-marks.ts';
import { saidIn, spoken, stretchesOf } from './spoken.ts';

export function typographic(book: Book): Book {
  const typographer = new Typographer(book.written ?? book.language);
  const out = typographer.book(book);
  // Nearly every book is in one language, and is composed anew with every edit: it is not gone through for marks that nobody made.
  return typographer.severalLanguages ? spoken(out) : out;
}

class Typographer {
  private readonly language: string;
  severalLanguages = false;

  constructor(language: string) {
    this.language = language;
  }

  book(book: Book): Book {
    return {
      ...book,
      title: this.text(book.title),
      publisher: this.text(book.publisher),
      ...this.own(book, 'subtitle'),
      ...this.own(book, 'footLine'),
      ...(book.cover === undefined ? {} : { cover: this.flow(book.cover) }),
      ...(book.backCover === undefined ? {} : { backCover: this.flow(book.backCover) }),
      chapters: book.chapters.map((chapter) => this.chapter(chapter)),
    };
  }

  private text(text: string): string {
    return this.marked([{ text }])[0] as string;
  }

  /** Each text may be in two languages, and says so until the book is done. */
  private marked(texts: readonly { readonly text: string; readonly code?: boolean }[]): readonly string[] {
    const all = texts.map(({ text, code }) => stretchesOf(text, this.language).map((one) => ({ ...one, code: code === true })));
    this.severalLanguages ||= all.some((stretches) => stretches.some(({ language }) => language !== this.language));
    const out = quoteMarks(all.flat(), this.language);
    let at = 0;
    return all.map((stretches) =>
      stretches
        .map(({ language }) => (language === this.language ? (out[at++] as string) : saidIn(language, out[at++] as string)))
        .join(''),
    );
  }

  private own<K extends string>(from: { readonly [key in K]?: string }, key: K): { readonly [key in K]?: string } {
    const text = from[key];
    return text === undefined ? {} : ({ [key]: this.text(text) } as { readonly [key in K]: string });
  }

  private chapter(chapter: Chapter): Chapter {
    return { ...chapter, title: this.text(chapter.title), ...this.own(chapter, 'tab'), blocks: this.flow(chapter.blocks) };
  }

  private flow(flow: Flow): Flow {
    return flow.map((block) => this.block(block));
  }

  private inline(inline: readonly Inline[]): readonly Inline[] {
    const out = this.marked(inline.map(({ kind, text }) => ({ text, code: kind === 'code' })));
    return out.every((text, index) => text === inline[index]?.text)
      ? inline
      : inline.map((one, index) => ({ ...one, text: out[index] as string }));
  }

  private block<T extends BookBlock>(block: T): T;
  private block(block: BookBlock): BookBlock {
    switch (block.kind) {
      case 'heading':
        return { ...block, text: this.text(block.text) };
      case 'paragraph':
        return { ...block, inline: this.inline(block.inline) };
      case 'bullets':
        return { ...block, items: block.items.map((item) => this.flow(item)) };
      case 'step':
        return { ...block, body: this.flow(block.body), notices: block.notices.map((notice) => this.block(notice)) };
      case 'notice':
        return {
          ...block,
          body: this.flow(block.body),
          ...(block.recall === undefined ? {} : { recall: { ...block.recall, hazard: this.text(block.recall.hazard) } }),
        };
      case 'table':
        return {
          ...block,
          head: block.head.map((cell) => this.inline(cell)),
          rows: block.rows.map((row) => row.map((cell) => this.inline(cell))),
          ...this.own(block, 'caption'),
          ...(block.notes === undefined ? {} : { notes: this.flow(block.notes) }),
        };
      case 'figure':
        return { ...block, ...this.own(block, 'caption') };
      case 'write-in':
        // The name of its field is its label where it has no other.
        return { ...block, label: this.text(block.label), field: block.field ?? block.label };
      case 'choice':
        return { ...block, label: this.text(block.label), choices: block.choices.map((choice) => this.text(choice)) };
      case 'tasks':
        return this.tasks(block);
      case 'entries':
        return { ...block, rows: block.rows.map((row) => row.map((cell) => this.cell(cell))) };
      case 'index':
        return { ...block, entries: block.entries.map((entry) => ({ ...entry, name: this.text(entry.name) })) };
      default:
        return block;
    }
  }

  private tasks(block: TasksBlock): TasksBlock {
    return {
      ...block,
      heading: this.text(block.heading),
      ...this.own(block, 'aside'),
      items: block.items.map((item) => (item.kind === 'task' ? this.task(item) : this.block(item))),
    };
  }

  private task(task: Task): Task {
    return {
      ...task,
      line: this.inline(task.line),
      ...this.own(task, 'initials'),
      notices: task.notices.map((notice) => this.block(notice)),
      readings: task.readings.map((reading) => this.reading(reading)),
    };
  }

  private reading(reading: TaskReading): TaskReading {
    const { verdict } = reading;
    return {
      ...reading,
      limits: reading.limits.map((limit) => ({ ...limit, text: this.text(limit.text) })),
      ...(verdict === undefined ? {} : { verdict: { ...verdict, pass: this.text(verdict.pass), fail: this.text(verdict.fail) } }),
    };
  }

  private cell(cell: EntryCell): EntryCell {
    return {
      ...cell,
      label: this.text(cell.label),
      ...(cell.options === undefined ? {} : { options: cell.options.map((option) => this.text(option)) }),
    };
  }
}
