/**
 * The typical minimal lockout procedure of 29 CFR 1910.147, Appendix A (its outline, in our own words), on an invented machine with
 * mains, air, a raised weight and a charged link. As it stands it checks clean. With each control step taken out in turn, and the
 * rest renumbered, the finding is the named one at the named step: the table below.
 */
import { describe, expect, test } from 'vitest';
import { checkLibrary } from '../../procedures-schema/pipeline.ts';
import { numbered } from '../support/cases.ts';
import { FIXTURE_REGISTERS } from '../support/fixture.ts';

const EQUIPMENT = `families:
  label press:
    also: [press]
    energy:
      mains: {kind: electrical, size: 400 V, isolate: {disconnect switch: off}, try out: run button}
      air: {kind: pneumatic, size: 6 bar, isolate: {shut-off valve: shut}, relieve: {exhaust valve: open}, shown by: air gauge}
      ram weight: {kind: gravity, size: 120 kg, restrain: {ram block: in}}
      drive link: {kind: capacitor, size: 560 V DC, isolate: {disconnect switch: off}, settles in: 5 min, proved with: multimeter}
      oil: {kind: hydraulic, none because: no hydraulics}
      springs: {kind: spring, none because: no springs under load}
      heat: {kind: thermal, none because: nothing hot}
    points:
      ram block: {positions: [in, out], lockable: no}
    controls:
      run button: {starts: mains}
      halt button: {stops: mains}
      mode knob: {maintained: yes, positions: [idle, auto], off: idle, starts: mains}
    covers:
      front guard: {zone: ram space, fasteners: guard bolts}
    zones:
      ram space: {endangered by: [mains, air, ram weight, drive link], behind: [front guard]}
    parts:
      label knife: {zone: ram space}
    fasteners:
      guard bolts: {count: 4, of: front guard}
      knife bolts: {count: 2, torque: 12 N·m, condition: dry, of: label knife, zone: ram space}
    gauges:
      air gauge: {shows: air}
models:
  DM-10: {family: label press}
  DM-20: {family: label press}
`;

/** Each step, the paragraph that asks for it, and what must be found when it is gone: check, and the words of the step it is found at. */
const STEPS: readonly (readonly [step: string, basis: string, check?: string, at?: string])[] = [
  ['Tell the people at the press that it will be locked out.', 'App. A (1); (c)(9)', 'told-before-lockout', 'Put your lock'],
  ['Stop the press with the [halt button].', 'App. A (3); (d)(2)', 'shutdown-first', 'Switch the [disconnect switch] off'],
  ['Put the [ram block] in.', 'App. A (6); (d)(5)(i)', 'hands-relieved', 'Remove the [front guard]'],
  ['Switch the [disconnect switch] off.', 'App. A (4); (d)(3)', 'hands-isolated', 'Remove the [front guard]'],
  ['Shut the [shut-off valve].', 'App. A (4); (d)(3)', 'hands-isolated', 'Remove the [front guard]'],
  ['Put your lock and tag on the [disconnect switch].', 'App. A (5); (d)(4)', 'hands-locked', 'Remove the [front guard]'],
  ['Put your lock and tag on the [shut-off valve].', 'App. A (5); (d)(4)', 'hands-locked', 'Remove the [front guard]'],
  ['Open the [exhaust valve] and leave it open.', 'App. A (6); (d)(5)(i)', 'hands-relieved', 'Remove the [front guard]'],
  ['Wait 5 min for the [drive link] to run down.', 'App. A (6); (d)(5)(i)', 'hands-relieved', 'Remove the [front guard]'],
  ['Send everyone clear of the press.', 'App. A (7): nobody exposed', 'clear-before-try', 'Press the [run button]'],
  ['Set the [mode knob] to auto.', 'App. A (7): a try-out that can show something', 'proof-shows', 'Remove the [front guard]'],
  ['Press the [run button]: the ram must not move.', 'App. A (7); (d)(6)', 'hands-proved', 'Remove the [front guard]'],
  ['Set the [mode knob] to idle.', 'App. A (7): control back to neutral', 'controls-off', 'Switch the [disconnect switch] on'],
  ['Read the [air gauge]: it must show 0 bar.', 'App. A (7); (d)(6)', 'hands-proved', 'Remove the [front guard]'],
  // A meter that shows nothing may be broken: tried before and after. Common practice; semantics.md 6.
  ['Try the [multimeter] on a source that is known to be live.', 'rule 6', 'proof-shows', 'Clean the [label knife]'],
  // Only the meter shows it, so the guard may come off to reach it; the next hand that goes in is judged.
  [
    'Measure the [drive link] with the [multimeter]: it must show less than 25 V.',
    'App. A (7); (d)(6)',
    'hands-proved',
    'Clean the [label knife]',
  ],
  ['Try the [multimeter] again on the source that is known to be live.', 'rule 6', 'proof-shows', 'Clean the [label knife]'],
  ['Remove the [front guard].', 'the work', 'closes-what-is-open', 'Refit the [front guard]'],
  ['Clean the [label knife].', 'the work'],
  ['Refit the [front guard].', 'Returning (1); (e)(1)', 'covers-before-live', 'Take the [ram block] out'],
  ['Take all tools away from the press.', 'Returning (1); (e)(1)', 'tools-out', 'Take the [ram block] out'],
  ['Send everyone well clear of the press.', 'Returning (2); (e)(2)(i)', 'people-clear', 'Take the [ram block] out'],
  ['Take the [ram block] out.', 'Returning (4)', 'point-restored'],
  ['Shut the [exhaust valve].', 'Returning (4)', 'point-restored'],
  [
    'Take your lock and tag off the [disconnect switch] and the [shut-off valve].',
    'Returning (4); (e)(3)',
    'point-locked',
    'Open the [shut-off valve]',
  ],
  ['Open the [shut-off valve].', 'Returning (4)', 'point-restored'],
  ['Switch the [disconnect switch] on.', 'Returning (4)', 'point-restored'],
  ['Tell the people at the press that the locks are off and the work is done.', 'Returning (5); (e)(2)(ii)', 'told-before-live'],
];

const FRONT = `---
id: FX-100
title: Clean the label knife
revision: "A"
date: 2026-01-15
models: [DM-10, DM-20]
starts with: closed
ends with: closed
time: 60 min
people: 1
audience: authorized technician
tools: [multimeter]
consumables: none
parts: none
protection: none
---
`;

function findingsOf(steps: readonly string[], other: { readonly equipment?: string; readonly profile?: string } = {}) {
  const text = numbered(`${FRONT}\n## Lock out and clean\n\n${steps.map((step) => `#. ${step}`).join('\n')}\n`);
  const files = {
    ...FIXTURE_REGISTERS,
    'library.yaml': (FIXTURE_REGISTERS['library.yaml'] as string).replace(
      'lockout profile: standard',
      `lockout profile: ${other.profile ?? 'standard'}`,
    ),
    'registers/equipment.yaml': other.equipment ?? EQUIPMENT,
    'registers/symptoms.yaml': 'symptoms:\n  labels torn: {family: label press, procedures: [FX-100]}\n',
    'registers/parts.yaml': 'parts:\n  knife set: {renews: label knife}\n',
    'registers/tools.yaml':
      'tools:\n  multimeter: {kind: multimeter, contact: yes}\n  earth lead: {kind: earth lead, temporary: yes}\n  work gloves: {protective: yes}\n',
    'procedures/FX-100.md': text,
  };
  const lines = text.split('\n');
  return checkLibrary(Object.entries(files).map(([path, content]) => ({ path, text: content })))
    .findings.filter((finding) => finding.severity !== 'advice')
    .map((finding) => ({
      check: finding.check,
      severity: finding.severity,
      line: lines[finding.range.start.line - 1] ?? '',
      message: finding.message,
    }));
}

const all = STEPS.map(([step]) => step);

test('as it stands it checks clean', () => {
  expect(findingsOf(all)).toEqual([]);
});

describe('without', () => {
  for (const [index, [step, basis, check, at]] of STEPS.entries())
    test(`${step} (${basis})`, () => {
      const found = findingsOf(all.filter((_, other) => other !== index));
      if (check === undefined) return expect(found).toEqual([]);
      const own = found.filter((finding) => finding.check === check);
      expect(own, JSON.stringify(found, undefined, 1)).not.toEqual([]);
      if (at !== undefined) expect(own[0]?.line).toContain(at);
      // Warnings where the basis is not binding or comes after the work (L11, L14), errors elsewhere.
      const mild = ['told-before-lockout', 'clear-before-try', 'closes-what-is-open', 'lock-off', 'told-before-live'];
      expect(own[0]?.severity).toBe(mild.includes(check) ? 'warning' : 'error');
      return undefined;
    });
});

/**
 * Pairs that may change places, by what their two steps do. Telling before or after the stop, the order among sources, and relief or
 * restraint that survives isolation are allowed by the text itself; the rest are not orders the paragraph gives: people may be clear
 * earlier than they must, a selector may be set earlier or put back later among the proofs, and tools and people may be cleared in
 * either order before the locks come off.
 */
const KIND: readonly (readonly [RegExp, string])[] = [
  [/^Tell/, 'tell'],
  [/^Stop/, 'stop'],
  [/block\] in/, 'relieve'],
  [/^(?:Switch the \[disconnect switch\] off|Shut the \[shut-off)/, 'isolate'],
  [/^Put your lock/, 'lock'],
  [/^(?:Open the \[exhaust|Wait)/, 'relieve'],
  [/^Send/, 'people'],
  [/knob\]/, 'select'],
  [/^Try the \[multimeter\] on/, 'try before'],
  [/^Try the \[multimeter\] again/, 'try after'],
  [/^(?:Press|Read|Measure)/, 'prove'],
  [/^Remove/, 'open'],
  [/^Clean/, 'work'],
  [/^Refit/, 'close'],
  [/^Take all tools/, 'tools'],
  [/earthing switch\] on/, 'earth'],
  [/^(?:Take the \[ram block\]|Shut the \[exhaust)/, 'unrelieve'],
  [/^Take your lock/, 'unlock'],
  [/^(?:Open the \[shut-off|Switch the \[disconnect switch\] on)/, 'restore'],
];
/** What a step deals with, so that an order among sources is told from an order of one source. */
const SOURCES: readonly (readonly [RegExp, readonly string[]])[] = [
  [/\[disconnect switch\] and the \[shut-off valve\]/, ['mains', 'drive link', 'air']],
  [/disconnect switch/, ['mains', 'drive link']],
  [/shut-off valve|exhaust valve|air gauge/, ['air']],
  [/drive link/, ['drive link']],
  [/ram block/, ['ram weight']],
  [/run button|mode knob/, ['mains']],
];
const sourcesOf = (step: string): readonly string[] => SOURCES.find(([words]) => words.test(step))?.[1] ?? [];
/** (d)(3) to (d)(6): of one source these come in this order, whatever else may change places. */
const ORDERED = new Set(['isolate lock', 'relieve prove', 'isolate prove', 'lock prove']);
const kindOf = (step: string): string => KIND.find(([words]) => words.test(step))?.[1] ?? step;
const FREE = new Set([
  'tell stop',
  'tell relieve',
  'tell isolate',
  'tell tell', // told before or after the stop, before the locks
  'stop relieve',
  'relieve isolate',
  'relieve relieve',
  'isolate isolate',
  'lock lock',
  'isolate lock', // among sources; relief that survives
  'lock relieve',
  'relieve people',
  'lock people',
  'people people',
  'relieve select',
  'lock select',
  'people select',
  'relieve prove',
  'select prove',
  'select unrelieve',

  'try after open', // the meter behind the cover
  'relieve try before',
  'select try before',
  'prove try before',
  'try before try after', // the meter is tried anywhere before its own reading, and it is the same deed both times
  'tools people',
  'unrelieve unrelieve',
  'unrelieve unlock',
  'restore restore',
  'restore tell',
  'open work',
  'work close', // the work itself is not the paragraph's
]);

test('of all transpositions of two steps only those pass that change nothing', () => {
  const passed: string[] = [];
  let count = 0;
  for (let i = 0; i < all.length; i += 1)
    for (let j = i + 1; j < all.length; j += 1) {
      const swapped = [...all];
      [swapped[i], swapped[j]] = [all[j] as string, all[i] as string];
      count += 1;
      if (findingsOf(swapped).length > 0) continue;
      const [one, other] = [all[i] as string, all[j] as string];
      const pair = `${kindOf(one)} ${kindOf(other)}`;
      const same = ORDERED.has(pair) && sourcesOf(one).some((source) => sourcesOf(other).includes(source));
      passed.push(same ? `${one} / ${other}` : pair);
    }
  console.log(`${count} transpositions, ${count - passed.length} caught, ${passed.length} allowed`);
  expect(passed.filter((pair) => !FREE.has(pair))).toEqual([]);
  // And none is allowed that never comes.
  expect([...FREE].filter((pair) => !passed.includes(pair))).toEqual([]);
  expect(passed.length).toBeLessThan(count / 7);
});

/**
 * The five rules of work on dead electrical parts (EN 50110-1, order from memory): disconnect, secure, verify, earth and short-circuit,
 * guard what is near. Here the test comes before the earth, since whoever clamps the earth lead on has to know that the part is dead.
 */
describe('earth after test', () => {
  const measured = all.findIndex((step) => step.startsWith('Measure'));
  const cleaned = all.findIndex((step) => step.startsWith('Clean'));
  const [earth, off] = ['Put the [earth lead] on the [label knife].', 'Take the [earth lead] off the [label knife].'];
  const errors = (steps: readonly string[]): string[] =>
    findingsOf(steps)
      // The front matter is that of the procedure without an earth lead.
      .filter(({ severity, check }) => severity === 'error' && check !== 'tool-not-listed')
      .map(({ check }) => check);

  test('tested, then earthed', () => {
    expect(errors(all.toSpliced(cleaned + 1, 0, off).toSpliced(cleaned, 0, earth))).toEqual([]);
  });
  test('earthed, then tested', () => {
    const early = all.toSpliced(cleaned + 1, 0, off).toSpliced(measured, 0, earth);
    expect(errors(early)).toContain('hands-proved');
  });
  test('the earth lead stays on', () => {
    expect(errors(all.toSpliced(cleaned, 0, earth))).toContain('temporary-out');
  });
});

/**
 * The same press with an earthing switch on its mains. Where the library says "lockout profile: electrical", the test comes before the
 * earth; where it does not, the order is that of 1910.147(d): what is stored is let out, then all is proved. Of the transpositions of the
 * steps that make safe, the profiles differ in those of the earth and the proof of what is earthed, and in no other.
 */
describe('the profile', () => {
  const earthed = EQUIPMENT.replace('isolate: {disconnect switch: off}, try out: run button', '$&, relieve: {earthing switch: on}');
  const on = 'Switch the [earthing switch] on.';
  const steps = all
    .filter((step) => !step.startsWith('Send everyone well'))
    .toSpliced(all.indexOf('Open the [exhaust valve] and leave it open.') + 1, 0, on)
    .flatMap((step) => (step.startsWith('Shut the [exhaust') ? [step, 'Switch the [earthing switch] off.'] : [step]))
    .flatMap((step) => (step.startsWith('Take all tools') ? [step, 'Send everyone well clear of the press.'] : [step]));
  const tried = steps.findIndex((step) => step.startsWith('Press the [run button]'));
  const late = steps.toSpliced(tried + 1, 0, on).toSpliced(steps.indexOf(on), 1);
  const found = (list: readonly string[], profile: string) => findingsOf(list, { equipment: earthed, profile });
  const errors = (list: readonly string[], profile: string): readonly string[] =>
    found(list, profile)
      .filter(({ severity }) => severity === 'error')
      .map(({ check }) => check);

  test('standard: earthed, then tested', () => {
    expect(errors(steps, 'standard')).toEqual([]);
    expect(errors(late, 'standard')).toContain('proof-in-order');
  });

  test('electrical: tested, then earthed', () => {
    expect(errors(late, 'electrical')).toEqual([]);
    expect(errors(steps, 'electrical')).toEqual(['earth-after-test']);
  });

  test('without the earth, both ask for it', () => {
    const without = steps.filter((step) => step !== on);
    for (const profile of ['standard', 'electrical']) expect(errors(without, profile)).toContain('hands-relieved');
  });

  test('the profiles differ in the order of earth and proof alone', () => {
    const hands = late.findIndex((step) => step.startsWith('Remove'));
    const differing: string[] = [];
    for (let i = 0; i < hands; i += 1)
      for (let j = i + 1; j < hands; j += 1) {
        const swapped = [...late];
        [swapped[i], swapped[j]] = [late[j] as string, late[i] as string];
        const [a, b] = ['standard', 'electrical'].map((profile) => found(swapped, profile).length > 0);
        // What is in the order of the electrical profile is out of order for the standard, unless the earth is before the proof.
        const before = swapped.indexOf(on) < swapped.findIndex((step) => step.startsWith('Press the [run button]'));
        if (before && !a) expect(b, `${late[i]} <-> ${late[j]}`).toBe(true);
        if (!before) expect(a, `${late[i]} <-> ${late[j]}`).toBe(true);
        if (!b) differing.push(`${kindOf(late[i] as string)} ${kindOf(late[j] as string)}`);
      }
    // What the electrical profile lets pass are transpositions that the standard lets pass where no earth comes in between.
    expect(differing.filter((pair) => !FREE.has(pair) && !pair.includes('earth'))).toEqual([]);
    expect(differing.length).toBeGreaterThan(10);
  });
});

test('the table of removals holds every step', () => {
  console.log(STEPS.map(([step, basis, check]) => `${(check ?? 'nothing').padEnd(20)} ${basis.padEnd(34)} ${step}`).join('\n'));
  expect(STEPS.filter(([, , check]) => check !== undefined).length).toBeGreaterThanOrEqual(24);
});
