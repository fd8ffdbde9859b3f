/** Work on a plugged machine: unplugged and the plug kept, and nothing else stored: L13. */
import type { ProcedureCheck } from './check.ts';
import { eachAction } from './visit.ts';

export const plugKept: ProcedureCheck = {
  id: 'plug-kept',
  scope: 'procedure',
  severity: 'error',
  question: 'Is a machine that is made safe by its plug free of other energy, and is the plug kept by the one who works?',
  why: 'A plug on the floor is put back by whoever passes; and unplugging lets no air out and lowers no load.',
  source: '29 CFR 1910.147(a)(2)(iii)(A); rule L13',
  cases: [
    {
      name: 'unplugged and left lying',
      finds: 1,
      files: {
        'registers/equipment.yaml':
          'families:\n  bench grinder:\n    energy:\n      supply: {kind: electrical, size: 230 V, isolate: {mains plug: unplugged}, cord and plug: yes, try out: start button}\n      air: {kind: pneumatic, none because: no air}\n      oil: {kind: hydraulic, none because: no oil}\n      weight: {kind: gravity, none because: nothing is raised}\n      springs: {kind: spring, none because: no springs}\n      heat: {kind: thermal, none because: nothing hot}\n    points:\n      mains plug: {plug: yes, positions: [plugged in, unplugged]}\n    controls:\n      start button: {starts: supply}\n      stop button: {stops: supply}\n    covers:\n      side guard: {zone: wheel}\n    zones:\n      wheel: {endangered by: [supply], behind: [side guard]}\n    parts:\n      scraper: {zone: wheel}\nmodels:\n  DM-10: {family: bench grinder}\n  DM-20: {family: bench grinder}\n',
        'registers/symptoms.yaml': 'symptoms:\n  drum scrapes: {family: bench grinder, procedures: [FX-100]}\n',
      },
      body: '## Work\n\n#. Stop the machine with the [stop button].\n#. Unplug the [mains plug].\n#. Clean the [scraper].\n',
    },
    { name: 'no plug at all', finds: 0 },
  ],
  *run({ file, read, machines, source: text }) {
    const plugs = new Map<string, { source: string; others: readonly string[] }>();
    for (const machine of machines)
      for (const source of machine.sources)
        if (source.cordAndPlug)
          for (const { point } of source.isolate)
            plugs.set(point, {
              source: source.name,
              others: machine.sources.filter((other) => other !== source && other.stored).map((other) => other.name),
            });
    if (plugs.size === 0) return;
    // In the order of the text: each time it is pulled it must be kept before it is pulled again.
    const pulled: { point: string; span: { start: number; end: number }; label: string; kept: boolean }[] = [];
    for (const { action, step, span } of eachAction(read))
      for (const { thing } of action.things) {
        if (!plugs.has(thing.name)) continue;
        if (action.kind === 'isolate') pulled.push({ point: thing.name, span, label: step.fullLabel, kept: false });
        const last = pulled.filter(({ point }) => point === thing.name).at(-1);
        if (last !== undefined && (action.kind === 'lock' || action.kind === 'tag')) last.kept = true;
      }
    for (const { point, span, label, kept } of pulled) {
      if (kept) continue;
      // Said in the same words: "keep the plug with you", "keep it in sight".
      const near = text.text.slice(span.start, span.end + 240);
      if (
        /\b(?:keep|hold|carry)\b[^.]*\b(?:plug|it)\b[^.]*\b(?:with you|in sight|in your (?:hand|pocket|view)|beside you|under your control|within reach)\b/i.test(
          near,
        )
      )
        continue;
      yield {
        file,
        span,
        message: `Step ${label} pulls the ${point}, and nothing says that it stays with the one who works.`,
        actual: 'unplugged only',
        expected: '"Keep the plug with you" or a plug lock, in this step',
        steps: [label],
      };
    }
  },
};
