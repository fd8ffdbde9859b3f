/** What one sentence leaves open and the next one says, or the other way round: locks on "it" and "both", people out of the way, tries and gauges. */
import { describe, expect, test } from 'vitest';
import { checkLibrary } from '../../../procedures-schema/index.ts';
import { expandCase } from '../../support/cases.ts';

/** Each sentence of a step as its actions, things in brackets. */
function read(step: string): string {
  const { files } = expandCase({ name: 'one step', finds: 0, body: `## Work\n\n#. ${step}\n` });
  const tools = {
    path: 'registers/tools.yaml',
    text: 'tools:\n  own lock: {also: [lock], kind: lock}\n  own tag: {also: [tag], kind: tag}\n',
  };
  const { facts } = checkLibrary(files.map((file) => (file.path === tools.path ? tools : file)));
  const sentences = facts.procedures[0]?.read.steps[0]?.lead.sentences ?? [];
  return sentences
    .map(({ status, actions }) =>
      actions.length > 0
        ? actions.map(({ kind, things }) => `${kind} ${things.map(({ thing }) => thing.name).join('+')}`.trim()).join(', ')
        : status,
    )
    .join(' | ');
}

const OFF = 'isolate main isolator';
const LOCKED = 'lock main isolator, tag main isolator';
const CASES: readonly (readonly [step: string, reads: string])[] = [
  ['Switch the [main isolator] off. Put your lock and tag on it.', `${OFF} | ${LOCKED}`],
  ['Switch the [main isolator] off. Put on your lock and tag.', `${OFF} | ${LOCKED}`],
  ['Switch the [main isolator] off. Lock and tag it.', `${OFF} | ${LOCKED}`],
  ['Switch the [main isolator] off, lock and tag it.', `${OFF}, ${LOCKED}`],
  [
    'Switch the [main isolator] off and shut the [air valve]. Put your lock and tag on both.',
    `${OFF}, isolate air valve | lock main isolator+air valve, tag main isolator+air valve`,
  ],
  // Rule 20: another candidate was named, so "it" is nothing.
  ['Switch the [main isolator] off and shut the [air valve]. Put your lock and tag on it.', `${OFF}, isolate air valve | unread`],
  ['Take off the locks and tags.', 'unlock main isolator+air valve, untag main isolator+air valve'],
  ['See that everyone stands clear.', 'clear-people'],
  ['Take your tools out and make sure that nobody is near the mixer.', 'take-tools, clear-people'],
  // Rule 20: to check establishes nothing.
  ['Check that everyone is clear.', 'confirmation'],
  ['See that the drum is clear.', 'unread'],
  ['Press the [start button]. The drum must not turn.', 'try-out start button | confirmation'],
  ['Press the [start button]. The drum must not rub.', 'start start button | confirmation'],
  ['Open the [dump valve]. The [air gauge] must show 0 bar.', 'relieve dump valve | prove air gauge'],
  ['Open the [dump valve]. The [air gauge] must show 0.5 bar.', 'relieve dump valve | confirmation'],
  ['Open the [dump valve]. The [air gauge] must not show 0 bar.', 'relieve dump valve | confirmation'],
  ['Open the [dump valve]; the [air gauge] must show 0 bar.', 'relieve dump valve, prove air gauge'],
  ['Open the [dump valve] and see the [air gauge] fall to 0 bar.', 'relieve dump valve, prove air gauge'],
  ['Open the [dump valve] and see the [air gauge] fall to 2 bar.', 'relieve dump valve, observe air gauge'],
  ['With everyone clear press the [start button]: the drum must not turn.', 'clear-people, try-out start button'],
  ['With the guard clean press the [start button]: the drum must not turn.', 'unread'],
  ['Nobody near: press the [start button]. No movement.', 'clear-people, try-out start button | prohibition'],
  ['Tools away, people clear.', 'take-tools, clear-people'],
  ['Tools and people.', 'remark'],
  ['Pick up your tools and send everyone away.', 'take-tools, clear-people'],
  ['Pick up the [scraper].', 'handle scraper'],
  ['Set the [speed knob] to run. The drum must not turn.', 'control speed knob, try-out speed knob | confirmation'],
  ['Set the [speed knob] to run. The drum turns.', 'control speed knob | remark'],
  ['The mixer is good: go to [section Work].', 'go-to'],
  ['Leak test: look at the [air hose] from outside.', 'sense air hose'],
  ['Tighten the [scraper bolts] to 25 N·m and the [guard screws] to 2 N·m.', 'tighten scraper bolts, tighten guard screws'],
  ['Turn the [scraper] on its edge.', 'move scraper'],
  ['Refit the [side guard] and its screws.', 'close side guard'],
  ['Refit the [side guard] and the hinge.', 'unread'],
  ['Wipe off the dirt that comes out of the [scraper].', 'clean scraper'],
  ['Say that the mixer is coming on.', 'tell'],
  ['Turn the [scraper] a little, say 5 mm.', 'unread'],
  ['See that the [air gauge] reads 0 bar.', 'prove air gauge'],
  // "Once" waits for it; "everyone" alone is nobody sent.
  ['Once everyone is clear, press the [start button]: the drum must not turn.', 'clear-people, try-out start button'],
  ['When you are clear, press the [start button]: the drum must not turn.', 'try-out start button'],
  ['Press the [start button]: neither drum nor scraper may move.', 'try-out start button'],
  // A few words are an order only where a step begins with them.
  ['[Main isolator] off. Lock and tag it.', `${OFF} | ${LOCKED}`],
  ['Press the [stop button]. [Main isolator] off.', 'shut-down stop button | unread'],
  // What takes something from an order takes the order.
  ['Switch the [main isolator] off and on again.', 'unread'],
  ['Switch the [main isolator] off by half.', 'unread'],
  ['Switch the [main isolator] off at the end of the shift.', 'unread'],
  ['Switch the [main isolator] off when the boss says so.', 'unread'],
  ['On newer machines, switch the [main isolator] off.', 'unread'],
  ['On newer machines, clean the [scraper].', 'clean scraper'],
  ['The [main isolator] must be switched off by the boss.', 'unread'],
  ['The [scraper] is cleaned while the drum turns.', 'unread'],
  ['The [scraper] is worn.', 'remark'],
  ['The [scraper] needs greasing.', 'unread'],
  ['Press the [stop button], wiping the [scraper].', 'unread'],
  ['Wait at most 5 min.', 'wait'],
  ['Put your lock and tag beside the [main isolator].', 'unread'],
  ['Lock the [main isolator] in the on position.', 'unread'],
  ['Put your lock on the [main isolator] and your tag on the [air valve].', 'unread'],
  ['Send everyone away except the helper.', 'unread'],
  ['Take all tools but the wrench out.', 'unread'],
  ['Keep wiping the [scraper].', 'unread'],
  ['Tell the helper to clean the [scraper].', 'unread'],
  ['Stand in the [drum bay] and look.', 'unread'],
  ['From serial number 200, switch the [main isolator] off.', OFF],
];

describe('a serial number that no register breaks at', () => {
  test('is a question and decides nothing', () => {
    const { files } = expandCase({ name: 'one step', finds: 0, body: '## Work\n\n#. From serial number 200, clean the [scraper].\n' });
    const [sentence] = checkLibrary(files).facts.procedures[0]?.read.steps[0]?.lead.sentences ?? [];
    expect(sentence?.actions.flatMap(({ when }) => when.map(({ kind }) => kind))).toEqual(['fact']);
  });
});

describe('an outcome behind a colon', () => {
  const whenOf = (step: string) => {
    const { files } = expandCase({
      name: 'one step',
      finds: 0,
      front: 'measurements:\n  edge:\n    quantity: length\n    at: scraper\n    limits: {lower: 3 mm, upper: 5 mm}',
      body: `## Work\n\n#. ${step}\n`,
    });
    const sentences = checkLibrary(files).facts.procedures[0]?.read.steps[0]?.lead.sentences ?? [];
    return sentences.at(-1)?.actions.flatMap(({ when }) => when.map((one) => (one.kind === 'outcome' ? one.outcome : one.kind)));
  };
  test.each([
    ['Measure the [edge]. Under 3 mm: renew the [scraper].', ['under']],
    // No limit: whoever stands there answers it.
    ['Measure the [edge]. Under 2 mm: renew the [scraper].', ['fact']],
    ['Measure the [edge]; over the limit: renew the [scraper].', ['over']],
  ])('%s', (step, when) => expect(whenOf(step)).toEqual(when));
});

describe('"both" in the next step', () => {
  const second = (between: string): string => {
    const { files } = expandCase({
      name: 'steps',
      finds: 0,
      body: `## Work\n\n#. Switch the [main isolator] off and shut the [air valve].\n${between}#. Put your lock and tag on both.\n`,
    });
    const last = checkLibrary(files).facts.procedures[0]?.read.steps.at(-1)?.lead.sentences[0];
    return `${last?.status} ${last?.actions.flatMap(({ things }) => things.map(({ thing }) => thing.name)).join('+')}`;
  };
  test('stands for what the last step moved', () => {
    expect(second('')).toBe('read main isolator+air valve+main isolator+air valve');
  });
  test('stands for nothing once something else was named', () => {
    expect(second('#. Look at the [air gauge].\n')).toBe('unread ');
  });
});

describe('read together', () => {
  test.each(CASES)('%s', (step, reads) => expect(read(step)).toBe(reads));
});
