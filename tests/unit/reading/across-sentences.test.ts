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
];

describe('read together', () => {
  test.each(CASES)('%s', (step, reads) => expect(read(step)).toBe(reads));
});
