/** Sentences that a script says besides those of the procedure, in one place for each language. Data only. */
import type { SignalWord } from '../format/index.ts';

export const scriptWords = {
  title: (number: string, revision: string | undefined, title: string): string =>
    `This is ${number}${revision === undefined ? '' : `, revision ${revision}`}: ${title}.`,
  models: (names: string): string => `It is for ${names}.`,
  caution:
    'This film helps you; it does not make a machine safe. The lockout rules of your site, local codes and licensed practice come first.',
  needs: {
    protection: (list: string): string => `Wear ${list}.`,
    tools: (list: string): string => `You need these tools: ${list}.`,
    parts: (list: string): string => `These parts: ${list}.`,
    consumables: (list: string): string => `And for use: ${list}.`,
  },
  people: (count: string): string => `You must be ${count} people.`,
  notice: { danger: 'Danger', warning: 'Warning', caution: 'Caution', notice: 'Notice' } satisfies Record<SignalWord, string>,
  limits: (measurement: string, limits: string): string => `Limits of ${measurement}: ${limits}.`,
  limitsFor: (model: string, limits: string): string => `for the ${model}, ${limits}`,
  limitsShown: (measurement: string): string => `The limits of ${measurement} for your model are on the screen.`,
  passes: (pass: string, fail: string): string => `It passes when ${pass}. It fails when ${fail}.`,
  figure: 'the picture on the screen',
  table: 'the table on the screen',
  labelled: 'Step',
  step: 'step',
  steps: 'steps',
  to: 'to',
  of: 'in',
  and: 'and',
  section: 'section',
  otherwise: 'Otherwise',
  end: (number: string): string => `This is the end of ${number}.`,
  shot: {
    machine: 'the whole machine',
    outside: 'from outside, the way the reader stands',
    hands: 'close, both hands in the picture',
    into: (zone: string): string => `close, into the ${zone}`,
    at: (thing: string): string => `at the ${thing}, its position readable`,
    measured: (place: string): string => `where it is measured: ${place}`,
    people: 'wide, so that it is seen who is told and where people stand',
    speaker: 'title card',
  },
  care: {
    live: 'The machine may be live here: camera and crew outside the guards, nobody reaches in for the picture.',
    cut: 'Cut off, not yet proved dead when this step is begun: nobody reaches in for the picture.',
    safe: 'Locked out when this step is begun, if all steps before it were done.',
    open: 'Open and locked out when this step is begun, if all steps before it were done.',
    unknown: 'The state here is not proved: take the machine as live.',
  },
} as const;

/** "personal lock" as several: only what is not so already. */
export const several = (name: string): string => (/s$/.test(name) ? name : /(?:x|ch|sh)$/.test(name) ? `${name}es` : `${name}s`);

/** "a, b and c". */
export const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} ${scriptWords.and} ${names.at(-1)}`;

export const sentence = (text: string): string => {
  const trimmed = text.trim();
  const start = trimmed.charAt(0).toUpperCase() + trimmed.slice(1);
  return trimmed === '' || /[.!?]$/.test(trimmed) ? start : `${start.replace(/[,;:]$/, '')}.`;
};
