/**
 * Whether a control step of a procedure protects anybody, said from the register and the order of the text alone and not by the proof:
 * a lock on a valve whose air reaches no hand, or a second gauge that shows what the first has shown, can be left out without harm,
 * and leaving it out is then no slip to be caught.
 */
import {
  type Action,
  eachAction,
  type LabelledStep,
  type Machine,
  type ProcedureFacts,
  type Thing,
} from '../../procedures-schema/index.ts';

const CONTACT = [
  'open',
  'close',
  'renew',
  'loosen',
  'tighten',
  'adjust',
  'clean',
  'apply',
  'move',
  'handle',
  'measure',
  'put-in',
  'take-out',
];

interface Act {
  readonly action: Action;
  readonly step: LabelledStep;
  readonly reaches: ReadonlySet<string>;
}

/** Every action with the sources that endanger what the hand is at. */
function actsOf(facts: ProcedureFacts): readonly Act[] {
  return [...eachAction(facts.read)].map(({ action, sentence, step }) => {
    const named = sentence.mentions.filter((use) => use.at >= action.at && use.end <= action.end).map((use) => use.thing);
    const reaches =
      action.contact && CONTACT.includes(action.kind)
        ? facts.machines.flatMap((machine) => named.flatMap((thing) => dangers(machine, thing)))
        : [];
    return { action, step, reaches: new Set(reaches) };
  });
}

function dangers(machine: Machine, thing: Thing): readonly string[] {
  const part = machine.parts.find((one) => one.name === thing.name);
  const fastener = machine.fasteners.find((one) => one.name === thing.name);
  const cover = machine.covers.find((one) => one.name === thing.name);
  const of = machine.parts.find((one) => one.name === fastener?.of);
  const zone = part?.zone ?? fastener?.zone ?? of?.zone ?? (cover?.openLive === true ? undefined : cover?.zone);
  const held = [part?.holds, fastener?.holds].filter((name) => name !== undefined);
  return [...held, ...(machine.zones.find((one) => one.name === zone)?.endangeredBy ?? [])];
}

/** Sources that reach a hand anywhere in the procedure. */
export function threatening(facts: ProcedureFacts): ReadonlySet<string> {
  return new Set(actsOf(facts).flatMap(({ reaches }) => [...reaches]));
}

type Way = 'isolate' | 'relieve' | 'prove';

/** Sources that a thing isolates, lets out or holds, or shows, on any of the machines. */
export function sourcesOf(facts: ProcedureFacts, thing: Thing, way: Way): readonly string[] {
  return facts.machines
    .flatMap((machine) => machine.sources)
    .filter((source) =>
      way === 'isolate'
        ? source.isolate.some(({ point }) => point === thing.name)
        : way === 'relieve'
          ? [...source.relieve, ...source.restrain].some(({ point }) => point === thing.name)
          : [...source.tryOut, ...source.shownBy].includes(thing.name),
    )
    .map((source) => source.name);
}

const KINDS: Readonly<Record<Way, readonly string[]>> = {
  isolate: ['isolate'],
  relieve: ['relieve', 'restrain'],
  prove: ['try-out', 'prove', 'observe', 'measure', 'sense', 'relieve'],
};

/** Whether a step is the only one of the procedure that does this for some source that reaches a hand. */
export function isSole(facts: ProcedureFacts, step: LabelledStep, way: Way): boolean {
  const acts = actsOf(facts);
  const done = (one: Act): readonly string[] => {
    if (!KINDS[way].includes(one.action.kind)) return [];
    const words = one.action.until?.text ?? '';
    const gauges =
      way === 'prove'
        ? facts.machines.flatMap(({ sources }) => sources.filter(({ shownBy }) => shownBy.some((name) => words.includes(name))))
        : [];
    return [...gauges.map(({ name }) => name), ...one.action.things.flatMap(({ thing }) => sourcesOf(facts, thing, way))];
  };
  const threatened = new Set(acts.flatMap(({ reaches }) => [...reaches]));
  const own = acts.filter((one) => one.step === step).flatMap(done);
  const others = new Set(acts.filter((one) => one.step !== step).flatMap(done));
  return own.some((source) => threatened.has(source) && !others.has(source));
}

const LIVE = ['restore', 'release', 'start', 'test-run'];

/** Whether hands have been in since people were last sent clear and energy comes back before they are sent clear again, or isolation is tried. */
export function clearsSomebody(facts: ProcedureFacts, step: LabelledStep): boolean {
  const acts = actsOf(facts);
  const at = acts.findIndex((one) => one.step === step && one.action.kind === 'clear-people');
  let handsIn = false;
  for (let k = at - 1; k >= 0; k -= 1) {
    const { action, reaches, step: other } = acts[k] as Act;
    if (other.section !== step.section || action.kind === 'clear-people' || action.kind === 'call') break;
    if (reaches.size > 0) handsIn = true;
  }
  for (let k = at + 1; k < acts.length; k += 1) {
    const { action, step: other } = acts[k] as Act;
    if (other.section !== step.section || action.kind === 'clear-people' || action.kind === 'go-to') return false;
    if (LIVE.includes(action.kind)) return handsIn;
    // Appendix A (7): nobody exposed when isolation is tried, whether or not hands were in before.
    if (action.kind === 'try-out') return !acts.slice(0, at).some((one) => ['clear-people', 'call'].includes(one.action.kind));
  }
  return false;
}
