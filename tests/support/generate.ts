/**
 * A library of generated procedures of honest length for the bench and for tests of size: an invented maker's rotary screens and bag tippers.
 * The same number gives the same library. Wording and values vary from file to file, so that no two files are alike block by block
 * except where real ones are (the lockout steps).
 */

export interface GeneratedFile {
  readonly path: string;
  readonly text: string;
}

/** A small generator of pseudo-random numbers (the widely known "mulberry32"); exact on every engine. */
export function chance(start: number): () => number {
  let state = start >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

interface Kind {
  readonly family: string;
  readonly models: readonly string[];
  readonly guard: string;
  readonly zone: string;
  readonly restraint: string;
  readonly moving: string;
  readonly parts: readonly { readonly name: string; readonly fasteners: string; readonly torque: number }[];
}

const part = (name: string, fasteners: string, torque: number): Kind['parts'][number] => ({ name, fasteners, torque });

const KINDS: readonly Kind[] = [
  {
    family: 'rotary screen',
    models: ['RS-20', 'RS-40', 'RS-60'],
    guard: 'drive cover',
    zone: 'drive bay',
    restraint: 'drum pin',
    moving: 'drum',
    parts: [
      part('ring gear', 'gear bolts', 68),
      part('support roller', 'roller bolts', 45),
      part('thrust wheel', 'wheel bolts', 32),
      part('spray manifold', 'manifold screws', 12),
      part('brush holder', 'holder screws', 9),
      part('seal strip', 'strip screws', 6),
      part('chain tensioner', 'tensioner bolts', 25),
      part('drip tray', 'tray screws', 8),
    ],
  },
  {
    family: 'bag tipper',
    models: ['BT-1', 'BT-2'],
    guard: 'side panel',
    zone: 'tipping frame',
    restraint: 'frame prop',
    moving: 'frame',
    parts: [
      part('tipping cylinder', 'cylinder bolts', 90),
      part('hinge bush', 'bush screws', 18),
      part('bag hook', 'hook bolts', 40),
      part('dust hood', 'hood screws', 7),
      part('limit switch', 'switch screws', 3),
      part('wear plate', 'plate bolts', 55),
    ],
  },
];

const family = (kind: Kind): string => `  ${kind.family}:
    energy:
      supply: {kind: electrical, size: 400 V, isolate: {main isolator: off}, try out: start button}
      air: {kind: pneumatic, size: 7 bar, isolate: {air valve: shut}, relieve: {dump valve: open}, shown by: air gauge}
      load: {kind: gravity, size: 300 kg, restrain: {${kind.restraint}: in}}
      oil: {kind: hydraulic, none because: no hydraulics on this machine}
      springs: {kind: spring, none because: no springs under load}
      heat: {kind: thermal, none because: nothing gets hot}
    controls:
      start button: {starts: supply}
      stop button: {stops: supply}
    covers:
      ${kind.guard}: {zone: ${kind.zone}, fasteners: guard screws}
    zones:
      ${kind.zone}: {endangered by: [supply, air, load], behind: [${kind.guard}]}
    parts:
${kind.parts.map(({ name }) => `      ${name}: {zone: ${kind.zone}}`).join('\n')}
    fasteners:
      guard screws: {count: 6, of: ${kind.guard}}
${kind.parts.map(({ name, fasteners, torque }) => `      ${fasteners}: {count: 4, torque: ${torque} N·m, condition: dry, of: ${name}, zone: ${kind.zone}}`).join('\n')}
    gauges:
      air gauge: {shows: air}`;

export const GENERATED_REGISTERS: readonly GeneratedFile[] = [
  {
    path: 'library.yaml',
    text: `publisher: Tolven Screens
language: en
numbering: {steps: numbers, substeps: letters, sections: restart}
units: {first: metric, second: inch}
paper: a4
document numbers: "TS-\\\\d{4}"
lockout profile: standard
`,
  },
  {
    path: 'registers/equipment.yaml',
    text: `families:\n${KINDS.map(family).join('\n')}\nmodels:\n${KINDS.flatMap((kind) => kind.models.map((model, i) => `  ${model}: {family: ${kind.family}, width: ${600 + 200 * i} mm}`)).join('\n')}\n`,
  },
  {
    path: 'registers/tools.yaml',
    text: `tools:
  13 mm wrench: {kind: hand tool, size: 13 mm}
  17 mm wrench: {kind: hand tool, size: 17 mm}
  soft hammer: {kind: hand tool}
  torque wrench: {kind: torque wrench, range: 2 to 120 N·m}
  feeler gauge: {kind: feeler gauge, range: 0.05 to 3 mm, resolution: 0.05 mm, contact: yes}
  dial indicator: {kind: dial indicator, range: 0 to 10 mm, resolution: 0.01 mm, contact: yes}
  work gloves: {protective: yes}
  safety glasses: {protective: yes}
`,
  },
  {
    path: 'registers/consumables.yaml',
    text: 'consumables:\n  bearing grease: {kind: lubricant, amount: 5 g}\n  thread compound: {kind: compound, amount: 2 ml}\n',
  },
];

const TROUBLES = [
  'knocks once a turn',
  'runs hot after an hour',
  'stops under load',
  'leaves fines behind',
  'shakes the floor',
  'drips at the seal',
];
const OBSERVED = [
  'on the morning shift',
  'after a wash-down',
  'with damp material',
  'at full speed',
  'after a long stop',
  'in the first winter',
];
const PLACES = ['at the left end', 'at the right end', 'under the frame', 'behind the rail', 'beside the motor', 'along the lower edge'];
const SIGNS = ['a dry streak', 'a bright spot', 'a score mark', 'a film of dust', 'a dark ring', 'loose paint'];
const CAUSES = [
  'wear on one flank',
  'a shim left out',
  'grit under the seat',
  'a stretched chain',
  'heat from the bearing',
  'paint under the face',
];

/** One procedure. `more` adds groups of five steps to the work, for a long file. */
export function generateProcedure(number: number, more = 0): GeneratedFile {
  const next = chance(number * 7919 + 17);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)] as T;
  const between = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  const kind = KINDS[number % KINDS.length] as Kind;
  const thing = pick(kind.parts);
  const other = pick(kind.parts.filter((candidate) => candidate !== thing));
  const gap = between(5, 60) * 5;
  const id = `TS-${String(1000 + number)}`;
  const mm = (hundredths: number): string => `${(hundredths / 100).toFixed(2)} mm`;
  const wear = `${thing.name} gap`;
  const extra = Array.from({ length: more }, (_, i) => {
    const one = kind.parts[(number + i) % kind.parts.length] as Kind['parts'][number];
    return `1. Loosen the [${one.fasteners}] by ${between(1, 3)} turns and leave them in place.
1. Wipe the [${one.name}] along ${between(100, 400)} mm until bare metal shows all round.
1. Look along the [${one.name}] from the left: the edge must be straight over ${between(200, 900)} mm.
   The light must fall flat along it.
1. Tighten the [${one.fasteners}] to ${one.torque} N·m with the torque wrench.
1. Write down the date and the number ${between(10, 99)}.
`;
  }).join('');
  const text = `---
id: ${id}
title: Set the ${thing.name} of the ${kind.family}, case ${number}
revision: "${'ABCDEF'[number % 6]}"
date: 2026-0${1 + (number % 9)}-${String(10 + (number % 18))}
models: [${kind.models.join(', ')}]
starts with: closed
ends with: closed
time: ${between(30, 120)} min
people: 1
audience: authorized technician
tools:
  - torque wrench
  - feeler gauge
consumables:
  - name: bearing grease
    quantity: ${between(2, 9)} g
parts: none
protection:
  - work gloves
measurements:
  ${wear}:
    quantity: length
    at: ${pick(['left', 'right', 'upper', 'lower'])} edge, ${between(2, 9)} places
    with: feeler gauge
    limits: table limits-${number}
---

## When to use

Use this procedure when the ${kind.family} ${pick(TROUBLES)} ${pick(OBSERVED)} and the
${thing.name} was last set more than ${between(200, 900)} hours ago.

## Background

The usual cause is ${pick(CAUSES)}; in ${between(5, 40)} of ${between(50, 90)} reports it was ${pick(CAUSES)}.
The ${thing.name} and the ${other.name} share a seat, so one is not set without a look at the other.

A unit built in week ${between(1, 52)} may still have ${between(2, 8)} shims ${pick(PLACES)}; later units have one shim of ${mm(between(20, 90))}.
In ${between(3, 30)} of ${between(40, 90)} cases the first sign was ${pick(SIGNS)} ${pick(PLACES)}, and the second was ${pick(SIGNS)} ${pick(PLACES)}.
It was found ${pick(OBSERVED)} more often than ${pick(OBSERVED)}, by ${between(2, 9)} to ${between(10, 20)} reports.

- ${pick(SIGNS)} ${pick(PLACES)} points to ${pick(CAUSES)} within ${between(20, 80)} hours
- ${pick(SIGNS)} ${pick(PLACES)} points to ${pick(CAUSES)} within ${between(90, 300)} hours
- ${pick(SIGNS)} ${pick(PLACES)} is of no account below ${mm(between(5, 30))}

## Make safe

:::warning
The ${kind.moving} can turn or drop by ${between(20, 300)} mm when it is not held. It could crush a hand. Put the [${kind.restraint}] in first.
:::

1. Tell the people at the ${kind.family} that it will stop for ${between(20, 90)} minutes.
1. Stop the ${kind.family} with the [stop button].
1. Put the [${kind.restraint}] in.
1. Switch the [main isolator] off.
1. Shut the [air valve].
1. Put your lock and tag on the [main isolator] and the [air valve].
1. Open the [dump valve].
1. Send everyone clear of the ${kind.family}.
1. Press the [start button]: the ${kind.moving} must not move.
1. Read the [air gauge]: it must show 0 bar.
1. Remove the [${kind.guard}].

## Check

1. Put on the [work gloves].
1. Look at the [${thing.name}] for ${pick(SIGNS)} ${pick(PLACES)}.
   A mark shorter than ${between(2, 30)} mm is of no account; a longer one is entered in the records with its place.
1. Look at the [${other.name}] for ${pick(SIGNS)} ${pick(PLACES)}.
   In ${between(2, 9)} of ${between(10, 90)} reports it was of no account.
1. {#read} Measure the [${wear}] with the [feeler gauge] at ${between(2, 6)} places.
   - If it is within the limit, go to [section Close up].
   - If it is over the limit, set the ${thing.name} as in [Set the ${thing.name}].
   - If it is under the limit, set the ${thing.name} as in [Set the ${thing.name}].

| model | lower | upper |
| --- | ---: | ---: |
${kind.models.map((model, i) => `| ${model} | ${mm(gap + 5 * i)} | ${mm(gap + 40 + 5 * i)} |`).join('\n')}

{#limits-${number}}

## Set the ${thing.name} {aside}

1. Loosen the [${thing.fasteners}] by ${between(1, 3)} turns.
1. Clean the [${thing.name}] over ${between(50, 300)} mm.
1. Put ${between(1, 5)} g of [bearing grease] on the [${thing.name}].
1. Move the [${thing.name}] by ${mm(between(5, 60))} towards the ${kind.moving}.
   a. Hold the [${thing.name}] against the stop for ${between(5, 20)} seconds.
   b. Look at the edge: light must show on one side only.
1. Tighten the [${thing.fasteners}] to ${thing.torque} N·m with the [torque wrench].
${extra}1. Measure the [${wear}] with the [feeler gauge] and write it down.

## Records

Enter the largest and the smallest of the ${between(3, 12)} readings, the hours run and the shim of ${mm(between(20, 90))} in the book of the ${kind.family}.
Keep the old ${thing.name} for ${between(5, 30)} days when it shows ${pick(SIGNS)} ${pick(PLACES)}.

## Close up

1. Wipe the [${thing.name}] over ${between(50, 300)} mm until no grease is left.
1. Refit the [${kind.guard}].
1. Take all tools away from the ${kind.family}.
1. Send everyone clear of the ${kind.family}.
1. Shut the [dump valve].
1. Take your lock and tag off the [main isolator] and the [air valve].
1. Take the [${kind.restraint}] out.
1. Open the [air valve].
1. Switch the [main isolator] on.
1. Tell the people at the ${kind.family} that it runs again, and note ${between(1000, 9999)} hours.
`;
  return { path: `procedures/${id.toLowerCase()}.md`, text };
}

export function generateLibrary(count: number): readonly GeneratedFile[] {
  return [...GENERATED_REGISTERS, ...Array.from({ length: count }, (_, i) => generateProcedure(i))];
}
