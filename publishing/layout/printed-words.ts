/** The few words the layout itself prints, by language. Everything else comes with the book. */
export interface PrintedWords {
  /** {n} stands for the number. */
  readonly pageRef: string;
  readonly pageOf: string;
  readonly page: string;
  readonly revision: string;
  readonly draft: string;
  readonly obsolete: string;
  readonly blank: string;
  readonly continued: string;
  readonly contents: string;
  readonly checklist: string;
  readonly initials: string;
  readonly missingFigure: string;
  /** Beside a notice's head that stands again; {n} stands for the page reference. */
  readonly noticeAgain: string;
  readonly band: Readonly<Record<'live' | 'safe' | 'open' | 'unknown', string>>;
}

const english: PrintedWords = {
  pageRef: '(page\u00a0{n})',
  pageOf: 'Page {n} of {total}',
  page: 'Page {n}',
  revision: 'Rev {r}',
  draft: 'DRAFT: NOT FOR FIELD USE',
  obsolete: 'OBSOLETE: DO NOT USE',
  blank: 'This page is blank on purpose.',
  continued: '{title}, continued',
  contents: 'Contents',
  checklist: 'Checklist',
  initials: 'Initials',
  missingFigure: 'Figure not found: {path}',
  noticeAgain: 'still in force, read it {n}',
  band: {
    live: 'Energy may be live: no hands in',
    safe: 'Required state: made safe',
    open: 'Required state: made safe, machine open',
    unknown: 'State not known: take it as live',
  },
};

export const wordsFor = (_language: string): PrintedWords => english;

export const fill = (pattern: string, values: Readonly<Record<string, string>>): string =>
  pattern.replace(/\{(\w+)\}/g, (_, name: string) => values[name] ?? '');
