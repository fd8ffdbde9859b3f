/**
 * Sixty procedures that look wrong to a hasty rule and are right: none may raise an error or a warning. A false alarm is a defect like a
 * miss, because a rule that cries wolf gets switched off.
 */
import { describe, expect, test } from 'vitest';
import type { CheckCase } from '../../procedures-schema/checks/index.ts';
import { checkLibrary } from '../../procedures-schema/index.ts';
import { expandCase } from '../support/cases.ts';

type Near = Omit<CheckCase, 'finds'>;

const TORQUE = 'tools: [torque wrench]';
const GAP =
  'tools: [feeler gauge]\nmeasurements:\n  scraper gap:\n    quantity: length\n    at: middle of the blade\n    with: feeler gauge\n    limits: {lower: 0.5 mm, upper: 1.5 mm}';
const GAP_TORQUE = GAP.replace('[feeler gauge]', '[feeler gauge, torque wrench]');
const OUTCOMES =
  '   - If it is within the limits, go on with [step #after].\n   - If it is under or over the limits, set it as in [Set the gap].';

const NEAR: readonly Near[] = [
  // ---- the order of making safe
  {
    name: 'told after the stop',
    change: [
      ['Tell the people at the mixer that it will', ''],
      ['Stop the mixer with', '#. Stop the mixer with the [stop button].\n#. Tell the people at the mixer that it is stopped for work.'],
    ],
  },
  { name: 'the load is pinned under power, before isolating' },
  {
    name: 'the air is shut off before the mains',
    change: [
      ['Switch the [main isolator] off', '#. Close the [air valve].'],
      ['Shut the [air valve]', '#. Switch the [main isolator] off.'],
    ],
  },
  {
    name: 'each point is locked as soon as it is off',
    change: [
      ['Shut the [air valve]', '#. Put your lock and tag on the [main isolator].\n#. Shut the [air valve].'],
      ['Put your lock and tag on the [main isolator] and', '#. Put your lock and tag on the [air valve].'],
    ],
  },
  {
    name: 'relieved before the lock',
    change: [
      ['Put your lock and tag', '#. Open the [dump valve] and leave it open.'],
      ['Open the [dump valve].', '#. Put your lock and tag on the [main isolator] and the [air valve].'],
    ],
  },
  {
    name: 'the gauge is read before the button is tried',
    change: [
      ['Press the [start button]', '#. Read the [air gauge]: it must stand at 0 bar.'],
      ['it must show 0 bar', '#. Press the [start button]: the drum must not turn.'],
    ],
  },
  {
    name: 'locks and tags in two steps',
    change: [
      [
        'Put your lock and tag',
        '#. Put your lock on the [main isolator] and the [air valve].\n#. Put your tag on the [main isolator] and the [air valve].',
      ],
    ],
  },
  {
    name: 'people sent clear before the locks go on',
    change: [['Switch the [main isolator] off', '#. Send everyone clear of the mixer.\n#. Switch the [main isolator] off.']],
  },
  {
    name: 'everything twice',
    change: [['Read the [air gauge]', '#. Read the [air gauge]: it must show 0 bar.\n#. Read the [air gauge] again: it must show 0 bar.']],
  },
  // ---- looking is not touching
  {
    name: 'looking into the machine from outside while it runs',
    body: '## Look\n\n#. Look at the [scraper] from outside the guard.\n@SAFE\n@CLOSE\n'.replace('@SAFE', '\n@SAFE'),
  },
  { name: 'listening at the machine', body: '## Listen\n\n#. Listen to the drum from outside the guard.\n\n@SAFE\n@CLOSE\n' },
  { name: 'reading a fixed gauge on a live machine', body: '## Read\n\n#. Read the [air gauge].\n\n@SAFE\n@CLOSE\n' },
  { name: 'a confirmation establishes nothing and needs nothing', work: '#. Check that the [main isolator] is off.' },
  { name: 'a prohibition changes nothing', work: '#. Do not open the [air valve].' },
  { name: 'a remark names nothing', work: '#. Clean the [scraper]. Old dough comes off more easily when it is warm.' },
  // ---- opening and closing
  { name: 'screws travel with their cover', work: '#. Clean the [scraper].' },
  {
    name: 'the screws of the cover are named when it comes off and goes on',
    change: [
      ['Remove the [side guard]', '#. Remove the four [guard screws] and take off the [side guard].'],
      ['Refit the [side guard]', '#. Refit the [side guard] with its four [guard screws].'],
    ],
  },
  {
    name: 'a part is renewed instead of put back',
    front: `parts: [scraper blade kit]\n${TORQUE}`,
    work: '#. Loosen the two [scraper bolts].\n#. Renew the [scraper] with the [scraper blade kit].\n#. Tighten the two [scraper bolts] to 25 N·m with the [torque wrench], dry.',
  },
  {
    name: 'new part for old, in two steps',
    front: `parts: [scraper blade kit]\n${TORQUE}`,
    work: '#. Loosen the two [scraper bolts].\n#. Take out the [scraper] and discard it.\n#. Fit a new [scraper] from the [scraper blade kit].\n#. Tighten the two [scraper bolts] to 25 N·m with the [torque wrench], dry.',
  },
  {
    name: 'out, laid down, and back',
    front: TORQUE,
    work: '#. Remove the two [scraper bolts].\n#. Take out the [scraper].\n#. Put the [scraper] on the bench.\n#. Refit the [scraper].\n#. Put the two [scraper bolts] in.\n#. Tighten the two [scraper bolts] to 25 N·m with the [torque wrench], dry.',
  },
  {
    name: 'staged tightening: by hand, then to the torque',
    front: TORQUE,
    work: '#. Loosen the two [scraper bolts].\n#. Tighten the two [scraper bolts] by hand.\n#. Tighten the two [scraper bolts] to 25 N·m with the [torque wrench], dry.',
  },
  {
    name: 'three stages below one step',
    front: TORQUE,
    work: '#. Loosen the two [scraper bolts].\n#. Tighten the two [scraper bolts] in three stages with the [torque wrench], dry.\n\n   a. Tighten both [scraper bolts] to 10 N·m.\n   b. Tighten both [scraper bolts] to 20 N·m.\n   c. Tighten both [scraper bolts] to 25 N·m.',
  },
  {
    name: 'loosened and tightened in one sentence',
    front: TORQUE,
    work: '#. Loosen the two [scraper bolts], clean the [scraper], and tighten the two [scraper bolts] to 25 N·m with the [torque wrench], dry.',
  },
  {
    name: 'in reverse order',
    front: TORQUE,
    work: '#. {#off} Loosen the two [scraper bolts].\n#. {#out} Take out the [scraper].\n#. Clean the [scraper].\n#. Refit in reverse order of [steps #off to #out], and tighten the two [scraper bolts] to 25 N·m with the [torque wrench], dry.',
  },
  {
    name: 'closed only if it is still open',
    change: [['Take all tools', '#. Refit the [side guard] if it is still open.\n#. Take all tools away from the mixer.']],
  },
  {
    name: 'shut only if it is open',
    change: [['Take the [drum pin] out', '#. Shut the [dump valve] if it is open.\n#. Take the [drum pin] out.']],
  },
  { name: 'the guard goes off and on twice', work: '#. Refit the [side guard].\n#. Remove the [side guard].\n#. Clean the [scraper].' },
  {
    name: 'a joint that was opened has its leak test',
    work: '#. Disconnect the [air hose].\n#. Connect the [air hose].',
    change: [
      [
        'Tell the people at the mixer that it runs',
        '#. Do the leak test: look at the [air hose] from outside the guard.\n#. Tell the people at the mixer that it runs again.',
      ],
    ],
  },
  // ---- temporary things
  {
    name: 'a wedge in and out',
    front: 'tools: [drum wedge]',
    work: '#. Put the [drum wedge] in.\n#. Clean the [scraper].\n#. Take the [drum wedge] out.',
  },
  // ---- outcomes, branches, repeats
  {
    name: 'every outcome has its branch',
    front: GAP,
    work: '#. Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go on with [step #after].\n   - If it is under or over the limits, stop and call the works office.\n#. {#after} Clean the [scraper].',
  },
  {
    name: 'one branch and a general sentence after it',
    front: GAP,
    work: '#. Measure the [scraper gap] with the [feeler gauge].\n   - If it is over the limit, stop and call the works office.\n   - Otherwise, go on with [step #after].\n#. {#after} Clean the [scraper].',
  },
  {
    name: 'an "otherwise" for the rest',
    front: GAP,
    work: '#. Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go on with [step #after].\n   - Otherwise, stop and call the works office.\n#. {#after} Clean the [scraper].',
  },
  {
    name: 'a repeat from the setting to the reading',
    front: GAP_TORQUE,
    work: '#. {#set} Loosen the two [scraper bolts].\n#. Adjust the [scraper].\n#. Tighten the two [scraper bolts] to 25 N·m with the [torque wrench], dry.\n#. {#read} Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go on with [step #after].\n   - Otherwise, go to [step #set].\n#. {#after} Clean the [scraper].',
  },
  {
    name: 'repeat until, with the reading inside',
    front: GAP,
    work: '#. {#set} Adjust the [scraper].\n#. {#read} Measure the [scraper gap] with the [feeler gauge].\n   - If it is under or over the limits, go on with [step #again].\n   - If it is within the limits, go on with [step #again].\n#. {#again} Repeat [steps #set to #read] until the [scraper gap] is within the limits.',
  },
  {
    name: 'no lower limit, so no branch for under',
    front: GAP.replace('{lower: 0.5 mm, upper: 1.5 mm}', '{lower: 0 mm, upper: 1.5 mm}'),
    work: '#. Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go on with [step #after].\n   - If it is over the limit, stop and call the works office.\n#. {#after} Clean the [scraper].',
  },
  {
    name: 'a section called and returned from',
    front: GAP,
    body: `@SAFE\n## Check\n\n#. {#read} Measure the [scraper gap] with the [feeler gauge].\n${OUTCOMES}\n#. Repeat [step #read] until the [scraper gap] is within the limits.\n#. {#after} Clean the [scraper].\n\n@CLOSE\n## Set the gap {aside}\n\n#. Adjust the [scraper].\n`,
  },
  {
    name: 'a jump over a section',
    front: GAP,
    body: '@SAFE\n## Check\n\n#. Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go to [section Close up].\n   - If it is under or over the limits, go to [section Set].\n\n## Set\n\n#. Adjust the [scraper].\n\n@CLOSE\n',
  },
  { name: 'a fact asked once', work: '#. If the edge is dirty, clean the [scraper].' },
  {
    name: 'the same fact asked twice and remembered',
    work: '#. If the edge is dirty, clean the [scraper].\n#. If the edge is dirty, look at the [scraper] again.',
  },
  { name: 'for one model only', work: '#. For the DM-10: clean the [scraper].\n#. For the DM-20: look at the [scraper].' },
  {
    name: 'branches by model, one each',
    work: '#. Go by the model.\n   - For the DM-10: clean the [scraper].\n   - For the DM-20: look at the [scraper].',
  },
  // ---- ends
  {
    name: 'stop and call leaves the machine locked out',
    front: GAP,
    work: '#. Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go on with [step #after].\n   - Otherwise, stop and call the works office.\n#. {#after} Look at the [scraper].',
  },
  {
    name: 'declared out of service, safe and locked, and left open',
    front: GAP,
    body: '@SAFE\n## Check\n\n#. Measure the [scraper gap] with the [feeler gauge].\n   - If it is within the limits, go to [section Close up].\n   - Otherwise, go to [section Out of service].\n\n@CLOSE\n## Out of service {aside}\n\n#. Leave the locks and tags on the [main isolator] and the [air valve].\n#. Declare the mixer out of service.\n',
  },
  // ---- rule R
  {
    name: 'people clear, then tools, in the other order',
    change: [['Take all tools away', '#. Send all people clear of the mixer.\n#. Take the tools out of the mixer.']],
  },
  {
    name: 'the pin comes out last',
    change: [
      ['Take the [drum pin] out', ''],
      ['Switch the [main isolator] on', '#. Switch the [main isolator] on.\n#. Take the [drum pin] out.'],
    ],
  },
  {
    name: 'locks off one by one',
    change: [
      [
        'Take your lock and tag off the [main isolator] and',
        '#. Take your lock and tag off the [air valve].\n#. Take your lock and tag off the [main isolator].',
      ],
    ],
  },
  {
    name: 'told once the locks are off, before the switch',
    change: [
      ['Switch the [main isolator] on', '#. Tell the people at the mixer that the locks are off.\n#. Switch the [main isolator] on.'],
    ],
  },
  {
    name: 'a test run with the guard on',
    change: [
      [
        'Tell the people at the mixer that it runs',
        '#. Tell the people at the mixer that it will run as a test.\n#. Run the mixer as a test for 2 min with the [start button].\n#. Tell the people at the mixer that it runs again.',
      ],
    ],
  },
  {
    name: 'started and stopped, guard on',
    change: [
      [
        'Tell the people at the mixer that it runs',
        '#. Tell the people at the mixer that it will start.\n#. Press the [start button].\n#. Press the [stop button].\n#. Tell the people at the mixer that it runs again.',
      ],
    ],
  },
  { name: 'the whole round twice', body: '@SAFE\n@CLOSE\n## Again\n\n#. Look at the drum from outside the guard.\n' },
  // ---- the machine
  {
    name: 'a cover that may be opened live',
    equipment: [
      [
        'side guard: {zone: drum bay',
        '      side guard: {zone: drum bay, fasteners: guard screws}\n      sight flap: {zone: drum bay, may be opened live: yes}',
      ],
    ],
    body: '## Look in\n\n#. Open the [sight flap].\n#. Look at the [scraper] from outside the guard.\n#. Shut the [sight flap].\n\n@SAFE\n@CLOSE\n',
  },
  {
    name: 'an isolator behind its own cover',
    equipment: [
      ['side guard: {zone: drum bay', '      side guard: {zone: drum bay, fasteners: guard screws}\n      switch flap: {zone: drum bay}'],
      [
        'speed knob:',
        '      speed knob: {maintained: yes, positions: ["0", run], off: "0"}\n    points:\n      main isolator: {positions: [on, off], lockable: yes, behind: switch flap}',
      ],
    ],
    change: [
      ['Switch the [main isolator] off', '#. Open the [switch flap].\n#. Switch the [main isolator] off.'],
      ['Switch the [main isolator] on', '#. Switch the [main isolator] on.\n#. Shut the [switch flap].'],
    ],
  },
  {
    name: 'only the source that reaches the zone is isolated',
    equipment: [
      [
        'drum bay: {endangered by',
        '      drum bay: {endangered by: [supply, air, drum weight], behind: [side guard]}\n      valve box: {endangered by: [air], behind: [box lid]}',
      ],
      ['side guard: {zone: drum bay', '      side guard: {zone: drum bay, fasteners: guard screws}\n      box lid: {zone: valve box}'],
      ['scraper: {zone', '      scraper: {zone: drum bay}\n      filter bowl: {zone: valve box}'],
    ],
    body: '## Work\n\n#. Tell the people at the mixer that its air goes off.\n#. Stop the mixer with the [stop button].\n#. Shut the [air valve].\n#. Put your lock and tag on the [air valve].\n#. Open the [dump valve].\n#. Read the [air gauge]: it must show 0 bar.\n#. Remove the [box lid].\n#. Clean the [filter bowl].\n#. Refit the [box lid].\n#. Take all tools away from the mixer.\n#. Send everyone clear of the mixer.\n#. Shut the [dump valve].\n#. Take your lock and tag off the [air valve].\n#. Open the [air valve].\n#. Tell the people at the mixer that the air is on again.\n',
  },
  {
    name: 'stored energy that goes by waiting',
    equipment: [
      [
        'air: {kind: pneumatic',
        '      air: {kind: pneumatic, size: 7 bar, isolate: {air valve: shut}, relieve: {dump valve: open}, shown by: air gauge}\n      link: {kind: capacitor, size: 560 V DC, isolate: {main isolator: off}, settles in: 5 min}',
      ],
    ],
    change: [['Open the [dump valve]', '#. Open the [dump valve].\n#. Wait 5 min for the [link] to run down.']],
  },
  {
    name: 'a longer wait than asked',
    equipment: [
      [
        'air: {kind: pneumatic',
        '      air: {kind: pneumatic, size: 7 bar, isolate: {air valve: shut}, relieve: {dump valve: open}, shown by: air gauge}\n      link: {kind: capacitor, size: 560 V DC, isolate: {main isolator: off}, settles in: 5 min}',
      ],
    ],
    change: [['Open the [dump valve]', '#. Open the [dump valve].\n#. Wait 10 min for the [link] to run down.']],
  },
  {
    name: 'a source that can come back, kept in view',
    equipment: [
      [
        'air: {kind: pneumatic',
        '      air: {kind: pneumatic, size: 7 bar, isolate: {air valve: shut}, relieve: {dump valve: open}, shown by: air gauge, can come back: yes}',
      ],
    ],
    change: [['Read the [air gauge]', '#. Read the [air gauge]: it must show 0 bar. Keep the [air gauge] in view while you work.']],
    work: '#. Clean the [scraper].\n#. Look at the [scraper].\n#. Clean the [scraper] again.',
  },
  {
    name: 'a source that can come back, read again before each hand goes in',
    equipment: [
      [
        'air: {kind: pneumatic',
        '      air: {kind: pneumatic, size: 7 bar, isolate: {air valve: shut}, relieve: {dump valve: open}, shown by: air gauge, can come back: yes}',
      ],
    ],
    work: '#. Read the [air gauge]: it must show 0 bar.\n#. Clean the [scraper].',
    change: [['Refit the [side guard]', '#. Read the [air gauge]: it must show 0 bar.\n#. Refit the [side guard].']],
  },
  {
    name: 'a selector put to run for the try-out and back',
    equipment: [['speed knob:', '      speed knob: {maintained: yes, positions: ["0", run], off: "0", starts: supply}']],
    change: [
      [
        'Press the [start button]',
        '#. Set the [speed knob] to run.\n#. Press the [start button]: the drum must not turn.\n#. Set the [speed knob] to 0.',
      ],
    ],
  },
  {
    name: 'stored energy that goes by waiting until its own gauge shows it',
    equipment: [
      [
        'air: {kind: pneumatic',
        '      air: {kind: pneumatic, size: 7 bar, isolate: {air valve: shut}, shown by: air gauge, settles in: 2 min}',
      ],
    ],
    change: [
      ['Open the [dump valve]', '#. Wait until the [air gauge] shows 0 bar.'],
      ['Shut the [dump valve]', ''],
    ],
  },
  // ---- words
  {
    name: 'what is locked is said in the sentence before',
    change: [
      ['Put your lock and tag', ''],
      ['Switch the [main isolator] off', '#. Switch the [main isolator] off. Put your lock and tag on it.'],
      ['Shut the [air valve]', '#. Shut the [air valve]. Lock it and tag it.'],
    ],
  },
  {
    name: 'people seen out of the way, and what must not turn said after the try',
    change: [
      ['Send everyone clear of the mixer.', '#. See that nobody is near the mixer.'],
      ['Press the [start button]', '#. Press the [start button]. The drum must not turn.'],
      ['Read the [air gauge]', '#. The [air gauge] must show 0 bar.'],
    ],
  },
  {
    name: 'locks taken off wherever they are',
    change: [['Take your lock and tag off', '#. Take off the locks and tags.']],
  },
  { name: 'passive voice', work: '#. The [scraper] must be cleaned.' },
  { name: 'an order after a reason', work: '#. To keep dough off the drum, clean the [scraper].' },
  { name: 'a pronoun for what was named', work: '#. Look at the [scraper] and clean it.' },
  {
    name: 'an alias and a plural',
    front: TORQUE,
    work: '#. Loosen the scraper bolts.\n#. Tighten the scraper bolts to 25 N·m with the torque wrench, dry.',
  },
  { name: 'a figure of speech with a lexicon verb', work: '#. Take care that no dough falls into the drum.' },
];

describe(`${NEAR.length} near misses`, () => {
  test.each(NEAR.map((near) => [near.name, near] as const))('%s', (_, near) => {
    const { files } = expandCase({ ...near, finds: 0 });
    const found = checkLibrary(
      files,
      files.map(({ path }) => path),
    ).findings.filter(({ severity }) => severity !== 'advice');
    expect(found.map(({ check, range, message }) => `${check}:${range.start.line} ${message}`)).toEqual([]);
  });
});
