/**
 * Instructions in the house's words for things of the register: "Switch off the [main isolator]". Each is a sentence that the reader
 * reads as meant; the tests hold it to that. Without a full stop at the end.
 */
import { english } from '../reading/index.ts';
import type { Control, Cover, Family, Fastener, Gauge, Measurement, Part, Point } from '../registers/index.ts';

export interface Phrase {
  readonly text: string;
  readonly detail: string;
}

/** By class of position; `X` is the name in brackets. */
const TO_POSITION: Readonly<Record<string, string>> = {
  off: 'Switch off the X',
  on: 'Switch on the X',
  open: 'Open the X',
  opened: 'Open the X',
  shut: 'Shut the X',
  closed: 'Shut the X',
  in: 'Put the X in',
  out: 'Take the X out',
  unplugged: 'Unplug the X',
};

export function toPosition(name: string, position: string): string {
  return (TO_POSITION[position.toLowerCase()] ?? `Set the X to ${position}`).replace('X', `[${name}]`);
}

/** The position that ends a safe one: the register's other one, else the opposite word. */
export function otherPosition(point: Point, safe: string): string | undefined {
  const words = english.positions.find((group) => group.includes(safe.toLowerCase())) ?? [safe.toLowerCase()];
  const registered = point.positions.find((position) => !words.includes(position.toLowerCase()));
  const pair = english.opposites.find((ends) => ends.includes(words[0] ?? ''));
  return registered ?? pair?.find((end) => end !== words[0]);
}

/** What people on the floor call the machine: its first short name. */
export function machineWord(family: Family): string {
  return family.aliases[0] ?? family.name;
}

const COUNTS = ['', '', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

export function counted(count: number | undefined): string {
  if (count === undefined || count < 2) return '';
  return `${COUNTS[count] ?? count} `;
}

export function pointPhrases(point: Point, family: Family): readonly Phrase[] {
  const safe = (['isolate', 'relieve', 'restrain'] as const).flatMap((use) =>
    family.sources.flatMap((source) =>
      source[use].filter((own) => own.point === point.name).map((own) => ({ use, source: source.name, safe: own.safe })),
    ),
  );
  const positions = new Set([
    ...safe.map((one) => one.safe),
    ...point.positions,
    ...safe.flatMap((one) => otherPosition(point, one.safe) ?? []),
  ]);
  const moves = [...positions].map((position): Phrase => {
    const own = safe.find((one) => one.safe === position);
    return {
      text: toPosition(point.name, position),
      detail: own ? `${USE_WORDS[own.use]} the ${own.source}` : 'ends what its safe position does',
    };
  });
  const locks: Phrase[] =
    point.lockable && point.roles.includes('isolate')
      ? [
          { text: `Put your lock and tag on the [${point.name}]`, detail: 'locks it' },
          { text: `Take your lock and tag off the [${point.name}]`, detail: 'takes the lock off' },
        ]
      : [];
  return [...moves, ...locks];
}

const USE_WORDS = { isolate: 'cuts off', relieve: 'lets out', restrain: 'holds' } as const;

export function controlPhrases(control: Control): readonly Phrase[] {
  const what =
    [...control.starts.map((name) => `starts the ${name}`), ...control.stops.map((name) => `stops the ${name}`)].join(', ') || 'control';
  if (control.positions.length > 0)
    return control.positions.map((position) => ({ text: `Set the [${control.name}] to ${position}`, detail: what }));
  return [{ text: `Press the [${control.name}]`, detail: what }];
}

export function coverPhrases(cover: Cover): readonly Phrase[] {
  const detail = cover.zone === undefined ? 'cover' : `opens the way to the ${cover.zone}`;
  return [
    { text: `Remove the [${cover.name}]`, detail },
    { text: `Put the [${cover.name}] back`, detail: 'cover' },
  ];
}

export function fastenerPhrases(fastener: Fastener): readonly Phrase[] {
  const name = `${counted(fastener.count)}[${fastener.name}]`;
  const of = fastener.of === undefined ? 'fasteners' : `of the ${fastener.of}`;
  const condition = fastener.condition === undefined ? '' : `, ${fastener.condition}`;
  const tighten = fastener.torque === undefined ? `Tighten the ${name}` : `Tighten the ${name} to ${fastener.torque}${condition}`;
  return [
    { text: `Remove the ${name}`, detail: of },
    { text: `Loosen the ${name}`, detail: of },
    { text: tighten, detail: of },
  ];
}

export function partPhrases(part: Part): readonly Phrase[] {
  const detail = part.zone === undefined ? 'part' : `in the ${part.zone}`;
  return ['Remove', 'Refit', 'Clean', 'Look at'].map((verb) => ({ text: `${verb} the [${part.name}]`, detail }));
}

export function gaugePhrases(gauge: Gauge): readonly Phrase[] {
  return [{ text: `Read the [${gauge.name}]`, detail: gauge.shows.length === 0 ? 'gauge' : `shows the ${gauge.shows.join(', ')}` }];
}

export function measurementPhrases({ name, with: tool, sensed, quantity }: Measurement): readonly Phrase[] {
  if (sensed) return [{ text: `Check the [${name}]`, detail: 'pass or fail' }];
  return [{ text: tool === undefined ? `Measure the [${name}]` : `Measure the [${name}] with the [${tool}]`, detail: quantity }];
}

/** Of every machine: people, tools, locks. */
export function machinePhrases(family: Family): readonly Phrase[] {
  const machine = machineWord(family);
  return [
    { text: `Tell the people at the ${machine} that it will be stopped`, detail: 'before it goes off' },
    { text: `Send everyone clear of the ${machine}`, detail: 'before energy comes back, and before a try-out' },
    { text: `Take all tools away from the ${machine}`, detail: 'before energy comes back' },
    { text: `Tell the people at the ${machine} that it runs again`, detail: 'at the end' },
  ];
}
