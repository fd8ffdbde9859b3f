/** The machine that random procedures are walked on: three models of one family, with mains, air that can come back, and a raised weight. */
import { checkLibrary, type LibraryReport, type ProcedureFacts } from '../../procedures-schema/index.ts';

const FILES: Readonly<Record<string, string>> = {
  'library.yaml': `publisher: Test Works
language: en
numbering: {steps: numbers, substeps: letters, sections: restart}
units: {first: metric, second: inch}
paper: a4
document numbers: "NA-\\\\d{3}"
lockout profile: standard
`,
  'registers/equipment.yaml': `families:
  random mixer:
    energy:
      supply: {kind: electrical, size: 400 V, isolate: {main isolator: off}, try out: start button}
      air: {kind: pneumatic, size: 7 bar, isolate: {air valve: shut, back valve: shut}, relieve: {dump valve: open}, shown by: air gauge, can come back: yes, only on: [NA-20, NA-30]}
      weight: {kind: gravity, size: 80 kg, restrain: {drum pin: in}, only on: NA-30}
    controls:
      start button: {starts: supply}
      stop button: {stops: supply}
      speed knob: {maintained: yes, positions: ["0", run], off: "0", starts: supply, only on: [NA-20, NA-30]}
    covers:
      side guard: {zone: drum bay, fasteners: guard screws, interlocked: yes}
    zones:
      drum bay: {endangered by: [supply, air, weight], behind: [side guard]}
      valve side: {endangered by: [air], only on: [NA-20, NA-30]}
    parts:
      scraper: {zone: drum bay}
      air hose: {zone: valve side, holds: air, when disturbed: leak test, only on: [NA-20, NA-30]}
    fasteners:
      guard screws: {count: 4, of: side guard}
      scraper bolts: {count: 2, torque: 25 N·m, condition: dry, of: scraper, zone: drum bay}
    gauges:
      air gauge: {shows: air, only on: [NA-20, NA-30]}
models:
  NA-10: {family: random mixer}
  NA-20: {family: random mixer}
  NA-30: {family: random mixer}
`,
  'registers/tools.yaml': 'tools:\n  drum wedge: {kind: wedge, temporary: yes}\n',
  'procedures/NA-100.md': `---
id: NA-100
title: The machines
revision: "A"
date: 2026-01-15
models: [NA-10, NA-20, NA-30]
tools: none
measurements:
  gap: {quantity: length, at: the drum, limits: {lower: 0.5 mm, upper: 1.5 mm}}
  noise: {pass: an even hum, fail: a knock, at: the drum}
---

## Work

1. Look at the drum.
`,
};

export const OUTCOMES: ReadonlyMap<string, readonly string[]> = new Map([
  ['gap', ['under', 'within', 'over']],
  ['noise', ['pass', 'fail']],
]);

export function naiveLibrary(): { readonly report: LibraryReport; readonly facts: ProcedureFacts } {
  const report = checkLibrary(Object.entries(FILES).map(([path, text]) => ({ path, text })));
  return { report, facts: report.facts.procedures[0] as ProcedureFacts };
}
