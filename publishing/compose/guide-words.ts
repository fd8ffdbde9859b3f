/** The sentences of the pages around the procedures of a bound guide, by language. Wording only; a language is added by adding a table. */
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
  readonly since: string;
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

const english: GuideWords = {
  aboutTitle: 'About this guide',
  useTitle: 'How to use this guide',
  use: [
    [
      'Find the procedure.',
      'Start at “From symptom to procedure”. Take the procedures of your model in the order given, and stop when the fault is gone.',
    ],
    [
      'Check that it is the right paper.',
      'Number, revision and date stand in the foot of every page. Compare them with the list of pages at the back before you trust a loose leaf.',
    ],
    [
      'Read to the end first.',
      'What you need, the energy on the machine and the limits stand before the first step. Notices stand before the step they belong to.',
    ],
    [
      'Work in order.',
      'One label, one thing to do. Take the branch that is true and no other. On the telephone, say the procedure and the label.',
    ],
    [
      'Watch the stripe.',
      'The stripe beside the steps shows the state the machine has to be in. Its colours and hatches are explained on the safety pages.',
    ],
    [
      'Write down what you read.',
      'Boxes stand beside the step in which a value is read, with the limits above them. A value in brackets is the same in the other units.',
    ],
    [
      'Follow the page numbers.',
      'Where a step sends you to another page, the page number stands in brackets. Come back to the step after it unless the text says otherwise.',
    ],
  ],
  symptomsTitle: 'From symptom to procedure',
  symptomsIntro: 'Find what the machine does, then your model. Do the procedures in the order given, until the symptom is gone.',
  symptom: 'Symptom',
  coverageTitle: 'Models and procedures',
  coverageIntro: 'A mark shows that the procedure is written for the model. No mark: do not use it on that model.',
  procedure: 'Procedure',
  covered: '●',
  onlyWith: 'only with {option}',
  andThen: 'then',
  page: 'Page',
  thingsTitle: 'Tools, consumables and parts',
  thingsIntro: 'What the procedures ask for, taken together. The last column says which procedures ask.',
  tools: 'Tools, test and protective equipment',
  consumables: 'Consumables',
  parts: 'Replacement parts',
  thingHead: ['Item', 'Size, range, number', 'Procedures'],
  limitsTitle: 'Limits',
  limitsIntro: 'Every value that is measured, in one place. The step in which it is read says what to do when it is outside.',
  limitsHead: ['Measurement', 'Limits', 'Read in'],
  documentsTitle: 'Documents cited',
  documentsIntro: 'These documents are not part of this guide. Ask for the revision given, or a later one.',
  documentsHead: ['Document', 'Revision', 'Ask at', 'Cited in'],
  indexTitle: 'Index of parts and names',
  indexIntro: 'The pages on which each thing is worked on.',
  recordTitle: 'Record of revisions',
  recordIntro: 'The procedures in this issue of the guide, with the revision of each.',
  recordHead: ['Document', 'Title', 'Revision', 'Date'],
  entered: 'Leaves replaced',
  enteredIntro: 'Write down here every leaf that is exchanged in this copy.',
  enteredHead: ['Date', 'Document, revision', 'Pages', 'Entered by'],
  changedTitle: 'What changed',
  changedIntro:
    'A bar in the outer margin marks what is new or different. A bar beside an old line tells that something before it is gone.',
  wholeNew: 'new in this issue: no bars',
  unchanged: 'nothing',
  since: '(since revision {r})',
  changedHead: ['Document', 'What changed'],
  pagesTitle: 'List of pages in force',
  pagesIntro: 'This guide is complete when these pages are in it. A page that is not on the list is blank on purpose, and says so.',
  pagesHead: ['Part of the guide', 'Document', 'Revision', 'Date', 'Pages'],
  askTitle: 'Where to ask',
  askIntro:
    'Stop and ask when the machine differs from the text, when a limit cannot be reached, or when you are not sure that the machine is safe.',
  askHave: 'Have this at hand',
  askItems: ['Model', 'Serial number', 'Procedure and revision', 'Label of the step', 'Value read, with its unit'],
  askUrgent: 'If somebody is hurt, call the emergency services of the site first.',
  backLine: 'Before the first use, read “{cautions}” on page',
  cover: 'Cover',
  backCover: 'Back cover',
};

export const guideWords = (_language: string): GuideWords => english;
