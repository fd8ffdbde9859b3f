/** What a print carries besides the writer's own words: one table a language, all of this shape. */
import type { SignalWord } from '../../procedures-schema/index.ts';
import type { BandState } from '../book.ts';

/** In every printed procedure. */
export interface BookWords {
  readonly panel: Readonly<Record<SignalWord, string>>;
  readonly contents: string;
  readonly procedureGuide: string;
  readonly revision: string;
  readonly cautionsTitle: string;
  /** Shown on every guide and in every checklist. */
  readonly cautions: readonly string[];
  readonly signalTitle: string;
  readonly signals: readonly (readonly [SignalWord, string])[];
  readonly bandTitle: string;
  readonly bandIntro: string;
  readonly noticesTitle: string;
  readonly noNotices: string;
  readonly assistanceTitle: string;
  readonly toolsTitle: string;
  readonly toolsIntro: string;
  readonly documentsTitle: string;
  readonly atAGlance: string;
  readonly glance: {
    readonly models: string;
    readonly symptoms: string;
    readonly starts: string;
    readonly ends: string;
    readonly time: string;
    readonly people: string;
    readonly audience: string;
    readonly requires: string;
    readonly liveTask: string;
    readonly edition: string;
  };
  readonly state: Readonly<Record<string, string>>;
  readonly needs: string;
  readonly needsHead: readonly [string, string, string, string];
  readonly kinds: { readonly tools: string; readonly consumables: string; readonly parts: string; readonly protection: string };
  readonly energy: string;
  readonly energyHead: readonly [string, string, string, string];
  /** Of stored energy: `{time}` after it was cut off. */
  /** A range of serial numbers, of which one end may be open. */
  readonly serial: (from: number | undefined, to: number | undefined) => string;
  readonly partNumber: string;
  readonly safetyData: string;
  /** The smallest difference that an instrument shows. */
  readonly resolution: string;
  /** What a file carries inside, as a reader lists it. */
  readonly attached: { readonly text: string; readonly checklist: string };
  /** Over a section that is no part of the main line; the steps follow. */
  readonly sentHere: string;
  readonly thenBack: string;
  readonly backIfCalled: string;
  readonly endsHere: string;
  readonly fillIn: string;
  readonly onlyIfSent: string;
  readonly goBack: string;
  readonly or: string;
  readonly goneAfter: string;
  /** Kinds of energy that the machine has not, each with its reason. */
  readonly notHere: string;
  readonly measured: string;
  readonly measuredHead: readonly [string, string, string];
  readonly figure: string;
  readonly table: string;
  readonly step: string;
  readonly steps: string;
  readonly to: string;
  readonly of: string;
  readonly section: string;
  readonly limits: string;
  readonly passes: string;
  readonly fails: string;
  readonly noLimit: string;
  readonly atLeast: string;
  readonly atMost: string;
  readonly only: string;
  readonly onlyWithOption: string;
  readonly none: string;
  readonly everything: string;
  readonly onlyModel: string;
  /** In the foot of every leaf of an edition in other units than the house prints. */
  readonly units: Readonly<Record<'metric-first' | 'inch-first' | 'metric-only' | 'inch-only', string>>;
  readonly proceduresHere: string;
  readonly askFor: string;
  readonly filmCodes: (strip: number, of: number) => string;
  readonly filmStart: string;
  /** Beside the only code of a section. */
  readonly filmOne: string;
}

/** On the pages around the procedures of a bound guide. */
export interface GuideWords {
  readonly aboutTitle: string;
  readonly useTitle: string;
  /** One paragraph each: what it is about, then what to do. */
  readonly use: readonly (readonly [string, string])[];
  readonly symptomsTitle: string;
  readonly symptomsIntro: string;
  readonly symptom: string;
  readonly coverageTitle: string;
  readonly coverageIntro: string;
  readonly procedure: string;
  readonly covered: string;
  readonly onlyWith: string;
  readonly andThen: string;
  readonly page: string;
  readonly thingsTitle: string;
  readonly thingsIntro: string;
  readonly tools: string;
  readonly consumables: string;
  readonly parts: string;
  readonly thingHead: readonly [string, string, string];
  readonly limitsTitle: string;
  readonly limitsIntro: string;
  readonly limitsHead: readonly [string, string, string];
  readonly documentsTitle: string;
  readonly documentsIntro: string;
  readonly documentsHead: readonly [string, string, string, string];
  readonly indexTitle: string;
  readonly indexIntro: string;
  readonly recordTitle: string;
  readonly recordIntro: string;
  readonly recordHead: readonly [string, string, string, string];
  readonly entered: string;
  readonly enteredIntro: string;
  readonly enteredHead: readonly [string, string, string, string];
  readonly changedTitle: string;
  readonly changedIntro: string;
  readonly wholeNew: string;
  readonly unchanged: string;
  /** With {title}. */
  readonly dropped: string;
  /** Of pages around the procedures. */
  readonly changedHere: string;
  /** With {titles}. */
  readonly sectionsGone: string;
  readonly since: string;
  /** The same revision in both issues. */
  readonly sinceSame: string;
  readonly changedHead: readonly [string, string];
  readonly pagesTitle: string;
  readonly pagesIntro: string;
  readonly pagesHead: readonly [string, string, string, string, string];
  readonly askTitle: string;
  readonly askIntro: string;
  readonly askHave: string;
  readonly askItems: readonly string[];
  readonly askUrgent: string;
  readonly backLine: string;
  readonly cover: string;
  readonly backCover: string;
}

/** On a short form. */
export interface ShortWords {
  /** With {here}, {all}, {guide}, {model}. */
  readonly partOfSet: string;
  readonly serial: string;
  readonly date: string;
  readonly model: string;
  readonly done: string;
  readonly initials: string;
  readonly started: string;
  readonly finished: string;
  readonly site: string;
  readonly checked: string;
  readonly remarks: string;
  readonly left: string;
  readonly before: string;
  readonly after: string;
  readonly asFound: string;
  readonly asLeft: string;
  readonly reading: string;
  readonly notLimited: string;
  readonly cutOff: string;
  readonly stored: string;
  readonly shown: string;
  /** The cautions of the guide in the fewest words: none is left out. */
  readonly cautions: string;
  readonly how: string;
  readonly aside: string;
  readonly sign: string;
  readonly also: string;
  readonly ofTheGuide: string;
}

/** On the sheet that a printer is tried with: front and back, each with what to do. */
export type DuplexWords = readonly [readonly [string, string], readonly [string, string]];

/** What the layout itself prints. */
export interface LayoutWords {
  /** {n} stands for the number. */
  readonly pageRef: string;
  /** The same where round brackets are open already: none stand inside others. */
  readonly pageInBrackets: string;
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
  readonly damagedFigure: string;
  readonly shouldShow: string;
  /** Beside a notice's head that stands again; {n} stands for the page reference. */
  readonly noticeAgain: string;
  readonly band: Readonly<Record<BandState, string>>;
}

export interface PrintedWords {
  readonly layout: LayoutWords;
  readonly book: BookWords;
  readonly guide: GuideWords;
  readonly short: ShortWords;
  readonly duplex: DuplexWords;
}
