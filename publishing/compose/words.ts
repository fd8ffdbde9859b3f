/** The sentences a printed procedure carries besides the writer's own, by language. Wording only; a language is added by adding a table. */
import type { SignalWord } from '../../procedures-schema/index.ts';
import type { UnitsEdition } from './units-edition.ts';

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
  readonly units: Readonly<Record<UnitsEdition, string>>;
  readonly proceduresHere: string;
  readonly askFor: string;
  readonly filmCodes: (strip: number, of: number) => string;
  readonly filmStart: string;
}

const english: BookWords = {
  panel: { danger: 'DANGER', warning: 'WARNING', caution: 'CAUTION', notice: 'NOTICE' },
  contents: 'Contents',
  procedureGuide: 'Service procedure',
  revision: 'Revision',
  cautionsTitle: 'Before you start',
  cautions: [
    'Site lockout rules, local codes and licensed practice come first. Where they ask for more than this text, do more.',
    'Only people whom the site has authorized may lock out these machines. Each person who works puts on a lock of their own and takes it off again.',
    'Take every source of energy as live until you have proved it dead yourself, on this machine, today.',
    'Where the text says in which state the machine has to be, it says what is required. It does not say that it is so: look, and try.',
    'This text helps a trained person to work in order. It replaces neither training nor a qualified reviewer, and no check of it, by a person or a program, makes a machine safe.',
    'If the machine before you differs from what you read here, stop and ask.',
  ],
  signalTitle: 'What the signal words mean',
  signals: [
    ['danger', 'You will be killed or badly hurt if you do not follow it.'],
    ['warning', 'You could be killed or badly hurt if you do not follow it.'],
    ['caution', 'You could be hurt if you do not follow it.'],
    ['notice', 'The machine, or something near it, could be damaged. Nobody is hurt.'],
  ],
  bandTitle: 'The stripe beside the steps',
  bandIntro:
    'It shows the state in which the machine has to be when a step begins, if every step before it was done. It does not say that the machine is in it.',
  noticesTitle: 'Dangers and warnings in the procedures',
  noNotices: 'The procedures here carry no notice of danger or warning.',
  assistanceTitle: 'Where to ask',
  toolsTitle: 'Tools and test equipment',
  toolsIntro: 'What the procedures ask for, taken together. The last column says which procedure asks.',
  documentsTitle: 'Other documents named',
  atAGlance: 'At a glance',
  glance: {
    models: 'For',
    symptoms: 'When',
    starts: 'Machine at the start',
    ends: 'Machine at the end',
    time: 'Time',
    people: 'People',
    audience: 'Who',
    requires: 'Before this',
    liveTask: 'Done live, because',
    edition: 'This edition',
  },
  state: {
    live: 'energy on',
    closed: 'closed, ready for use',
    'opened and locked out': 'opened and locked out',
    'out of service': 'out of service',
  },
  needs: 'What you need',
  needsHead: ['Kind', 'Item', 'Size, range, note', 'Number'],
  kinds: { tools: 'Tools', consumables: 'Consumables', parts: 'Parts', protection: 'Protective equipment' },
  energy: 'Energy on this machine',
  energyHead: ['Source', 'Cut off by', 'Stored part let out or held by', 'Shown dead by'],
  measured: 'What is measured',
  measuredHead: ['Measurement', 'Where and with what', 'Limits'],
  figure: 'Figure',
  table: 'Table',
  step: 'step',
  steps: 'steps',
  to: 'to',
  of: 'in',
  section: 'section',
  limits: 'Limits',
  passes: 'Passes',
  fails: 'Fails',
  noLimit: 'no limit',
  atLeast: 'at least',
  atMost: 'at most',
  only: 'only',
  onlyWithOption: 'only with',
  none: 'none',
  everything: 'all models above',
  units: {
    'metric-first': 'Metric units first.',
    'inch-first': 'Inch units first.',
    'metric-only': 'Metric units only, where the text has them.',
    'inch-only': 'Inch units only, where the text has them.',
  },
  onlyModel:
    'Only what applies to {model} is printed. Labels are those of the full procedure, so some numbers are missing here: nothing was lost.',
  proceduresHere: 'Procedures in this part',
  askFor: 'Ask for it at',
  filmCodes: (strip, of) => `Film of this section${of > 1 ? ` (${strip} of ${of})` : ''}. Each code opens it where the step is shown.`,
  filmStart: 'start',
};

export const bookWords = (_language: string): BookWords => english;
