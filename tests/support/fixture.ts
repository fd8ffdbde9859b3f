/** A small invented machine with a safe procedure, on which every case of a check says only its difference. */

export const FIXTURE_REGISTERS: Readonly<Record<string, string>> = {
  'library.yaml': `publisher: Test Works
language: en
numbering: {steps: numbers, substeps: letters, sections: restart}
units: {first: metric, second: inch}
paper: a4
document numbers: "FX-\\\\d{3}"
lockout profile: standard
`,
  'registers/equipment.yaml': `families:
  drum mixer:
    also: [mixer]
    energy:
      supply: {kind: electrical, size: 400 V, isolate: {main isolator: off}, try out: start button}
      air: {kind: pneumatic, size: 7 bar, isolate: {air valve: shut}, relieve: {dump valve: open}, shown by: air gauge}
      drum weight: {kind: gravity, size: 80 kg, restrain: {drum pin: in}}
      oil: {kind: hydraulic, none because: no hydraulics on this machine}
      springs: {kind: spring, none because: no springs under load}
      heat: {kind: thermal, none because: nothing gets hot}
    controls:
      start button: {starts: supply}
      stop button: {stops: supply}
      speed knob: {maintained: yes, positions: ["0", run], off: "0"}
    covers:
      side guard: {zone: drum bay, fasteners: guard screws}
    zones:
      drum bay: {endangered by: [supply, air, drum weight], behind: [side guard]}
    parts:
      scraper: {zone: drum bay}
      air hose: {zone: drum bay, when disturbed: leak test}
    fasteners:
      guard screws: {count: 4, of: side guard}
      scraper bolts: {count: 2, torque: 25 N·m, condition: dry, of: scraper, zone: drum bay}
    gauges:
      air gauge: {shows: air}
models:
  DM-10: {family: drum mixer, volume: 10 L}
  DM-20: {family: drum mixer, volume: 20 L}
`,
  'registers/tools.yaml': `tools:
  13 mm wrench: {kind: hand tool, size: 13 mm}
  torque wrench: {kind: torque wrench, range: 5 to 50 N·m}
  feeler gauge: {kind: feeler gauge, range: 0.05 to 2 mm, resolution: 0.05 mm, contact: yes}
  work gloves: {protective: yes}
  safety glasses: {protective: yes}
  drum wedge: {kind: wedge, temporary: yes}
`,
  'registers/consumables.yaml': `consumables:
  bearing grease: {kind: lubricant, amount: 5 g}
  degreaser: {kind: cleaner, needs: [work gloves]}
`,
  'registers/parts.yaml': `parts:
  scraper blade kit: {renews: scraper, models: [DM-10, DM-20]}
`,
  'registers/documents.yaml': `documents:
  FX-900: {title: Electrical drawings of the mixer, ask: the works office}
`,
  'registers/symptoms.yaml': `symptoms:
  drum scrapes: {family: drum mixer, procedures: [FX-100]}
`,
};

/** Front matter lines of the fixture procedure, by key, in order. */
export const FIXTURE_FRONT: readonly (readonly [string, string])[] = [
  ['id', 'id: FX-100'],
  ['title', 'title: Open the mixer and close it again'],
  ['revision', 'revision: "A"'],
  ['date', 'date: 2026-01-15'],
  ['models', 'models: [DM-10, DM-20]'],
  ['symptoms', 'symptoms: [drum scrapes]'],
  ['starts with', 'starts with: closed'],
  ['ends with', 'ends with: closed'],
  ['time', 'time: 40 min'],
  ['people', 'people: 1'],
  ['audience', 'audience: authorized technician'],
  ['tools', 'tools: none'],
  ['consumables', 'consumables: none'],
  ['parts', 'parts: none'],
  ['protection', 'protection: none'],
];

export const FIXTURE_SAFE = `## Make safe

#. Tell the people at the mixer that it will be stopped.
#. Stop the mixer with the [stop button].
#. Put the [drum pin] in.
#. Switch the [main isolator] off.
#. Shut the [air valve].
#. Put your lock and tag on the [main isolator] and the [air valve].
#. Open the [dump valve].
#. Send everyone clear of the mixer.
#. Press the [start button]: the drum must not turn.
#. Read the [air gauge]: it must show 0 bar.
#. Remove the [side guard].
`;

export const FIXTURE_CLOSE = `## Close up

#. Refit the [side guard].
#. Take all tools away from the mixer.
#. Send everyone clear of the mixer.
#. Shut the [dump valve].
#. Take your lock and tag off the [main isolator] and the [air valve].
#. Take the [drum pin] out.
#. Open the [air valve].
#. Switch the [main isolator] on.
#. Tell the people at the mixer that it runs again.
`;
