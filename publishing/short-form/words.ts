/** The words a short form prints besides the writer's own, by language. */

export interface ShortWords {
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
  readonly reading: string;
  readonly notLimited: string;
  readonly cutOff: string;
  readonly stored: string;
  readonly shown: string;
  readonly how: string;
  readonly aside: string;
  readonly sign: string;
  readonly also: string;
  readonly ofTheGuide: string;
}

const english: ShortWords = {
  serial: 'Serial number',
  date: 'Date',
  model: 'Model',
  done: 'Work done by (name)',
  initials: 'Initials',
  started: 'Started at',
  finished: 'Finished at',
  site: 'Site, place of the machine',
  checked: 'Checked by (name)',
  remarks: 'What was found, what was changed, parts used',
  left: 'Machine left',
  before: 'Before',
  after: 'After',
  reading: 'Reading',
  notLimited: 'No limit is set: write down what you read.',
  cutOff: 'cut off by',
  stored: 'let out or held by',
  shown: 'shown dead by',
  how: 'Tick each line when it is done; put your initials where there is a box for them. Of several lines that begin with a condition, do the one that is true and no other. This form is short: where a line is not clear, stop and read it in the guide, where the figures are.',
  aside: 'only when a step sends you here',
  sign: 'When all is done',
  also: 'Also needed',
  ofTheGuide: 'of the guide',
};

export const shortWords = (_language: string): ShortWords => english;
