/** Drift of a recording as words on a terminal, and what must be made again. Judges nothing. */
import { type Drift, type RedoPlan, shortTime } from '../../procedures-schema/narration/index.ts';
import { labelled, wrap } from './wrap.ts';

export function driftText(drifts: readonly Drift[], width: number): string {
  const lines = drifts.flatMap((one) => [
    `${one.start === undefined ? '' : `${shortTime(one.start)} `}${one.severity} (${one.kind})`,
    ...wrap(one.message, width, '  '),
    ...(one.actual === undefined ? [] : labelled('heard', one.actual, width, 10)),
    ...(one.expected === undefined ? [] : labelled('text', one.expected, width, 10)),
    ...labelled('why', one.why, width, 10),
    ...labelled('do', one.remedy, width, 10),
    '',
  ]);
  const count = (severity: Drift['severity']): number => drifts.filter((one) => one.severity === severity).length;
  const sum = `${count('error')} errors, ${count('warning')} warnings, ${count('advice')} advice. Captions mishear: each place is to be listened to.`;
  return `${lines.join('\n')}${sum}\n`;
}

const WORDS = { nothing: 'as it was', caption: 'caption again', voice: 'voice again', film: 'film again' } as const;

export function redoText({ passages, gone, chapters }: RedoPlan): string {
  const changed = passages.filter(({ redo, moved }) => redo !== 'nothing' || moved);
  const lines = [
    ...chapters.map(({ title, redo }) => `${WORDS[redo].padEnd(14)} ${title}`),
    ...(changed.length === 0 ? [] : ['']),
    ...changed.map(({ passage, redo, moved }) => `  ${WORDS[redo]}${moved ? ', and moved' : ''}: ${passage.key}: ${passage.said}`),
    ...gone.map((key) => `  cut out: ${key}`),
  ];
  return `${lines.join('\n')}\n`;
}
