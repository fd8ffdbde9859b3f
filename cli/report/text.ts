/** The report for a person at a terminal: where, what, the line itself, what would be right, why, the fix, the walk. */

import type { Finding, Severity } from '../../procedures-schema/index.ts';
import { CAUTION } from '../help.ts';
import type { Io } from '../io.ts';
import type { Checked } from '../library.ts';
import { unreadableFile } from '../unreadable-file.ts';
import { answersText } from './answers.ts';
import { labelled, shown, wrap } from './wrap.ts';

type Look = Pick<Io, 'colour' | 'width'>;
const COLUMN = 11;

export const textReport = (checked: Checked, look: Look): string => reported(checked, [summary(checked), firstOf(checked), CAUTION], look);

/** What keeps something from being written; `end` says what, since nobody asked for a check. */
export const refusalReport = (checked: Checked, end: string, look: Look): string => reported(checked, [firstOf(checked), end], look);

function reported(checked: Checked, ends: readonly string[], look: Look): string {
  const findings = checked.findings.map((finding) => findingText(finding, checked.lineOf(finding.file, finding.range.start.line), look));
  return `${[...findings, ...ends.filter(Boolean).flatMap((end) => wrap(end, look.width))].join('\n')}\n`;
}

export function summary({ findings, counts, read, files }: Checked): string {
  const touched = new Set(findings.map((finding) => finding.file)).size;
  const found =
    findings.length === 0
      ? `Nothing found in ${plural(files, 'file')}.`
      : `${plural(counts.error, 'error')}, ${plural(counts.warning, 'warning')}, ${counts.advice} advice in ${touched} of ${plural(files, 'file')}.`;
  return `${found} ${plural(read.sentences, 'sentence')} read, ${read.unread === 0 ? 'none' : read.unread} not understood.`;
}

/** One file that cannot be read may be behind hundreds of findings elsewhere, and stands somewhere among them. */
function firstOf({ findings, facts }: Checked): string {
  const shut = findings.filter(({ check }) => check === unreadableFile.id).map(({ file }) => file);
  const torn = facts.registerFiles.filter(({ problems }) => problems.some(({ broken }) => broken)).map(({ file }) => file.source.path);
  const put = (said: string, files: readonly string[]): readonly string[] =>
    files.length === 0 ? [] : [`${said}, so put right first: ${[...new Set(files)].map(shown).join(', ')}.`];
  const first = [...put('Not read', shut), ...put('Not read as it was meant', torn)];
  return first.length === 0 ? '' : [...first, 'What is told of other files may follow from that alone.'].join(' ');
}

const plural = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? '' : 's'}`;

export function findingText(finding: Finding, sourceLine: string | undefined, look: Look): string {
  const { start } = finding.range;
  const say = (label: string, text: string | undefined): readonly string[] => (text ? labelled(label, text, look.width, COLUMN) : []);
  return [
    `${bold(`${shown(finding.file)}:${start.line}:${start.column}`, look)}: ${paint(finding.severity, look)} [${finding.check}]`,
    ...wrap(finding.message, look.width, '  '),
    ...excerpt(finding, sourceLine, look),
    ...say('there now', finding.actual),
    ...say('right', finding.expected),
    ...say('why', finding.why),
    ...say('fix', finding.fix?.title),
    ...say('on', finding.variants.length > 0 ? finding.variants.join(', ') : undefined),
    ...finding.related.flatMap((related) => say('see also', `${related.file}: ${related.message}`)),
    ...walkLines(finding, look),
    '',
  ].join('\n');
}

/** The line of the source with carets below the place, cut to the width around it. */
function excerpt({ range }: Finding, line: string | undefined, look: Look): readonly string[] {
  if (line === undefined || line.trim() === '') return [];
  const room = look.width - 4;
  const from = range.start.column - 1;
  const to = range.end.line === range.start.line ? Math.max(range.end.column - 1, from + 1) : line.length;
  const cut = Math.max(0, Math.min(from - 20, line.length - room));
  const shown = line.slice(cut, cut + room).replaceAll(/\p{Cc}/gu, ' ');
  const carets = ' '.repeat(from - cut) + '^'.repeat(Math.max(1, Math.min(to - cut, shown.length) - (from - cut)));
  return [`    ${shown.trimEnd()}`, `    ${carets}`];
}

function walkLines({ walk }: Finding, look: Look): readonly string[] {
  if (walk.length === 0) return [];
  const labels = walk.map((step) => shown(`${step.section} ${step.label}`.trim()));
  const widest = Math.min(28, Math.max(...labels.map((label) => label.length)));
  return walk.flatMap((step, i) => {
    const text = `${step.text}${answersText(step.answers)}`;
    const column = COLUMN + widest + 2;
    const [first = '', ...rest] = wrap(text, look.width, ' '.repeat(column));
    return [(i === 0 ? '  walk' : '').padEnd(COLUMN) + (labels[i] ?? '').padEnd(widest + 2) + first.trimStart(), ...rest];
  });
}

const COLOURS: Readonly<Record<Severity, string>> = { error: '31', warning: '33', advice: '36' };
const paint = (severity: Severity, { colour }: Look): string => (colour ? `\u001b[1;${COLOURS[severity]}m${severity}\u001b[0m` : severity);
const bold = (text: string, { colour }: Look): string => (colour ? `\u001b[1m${text}\u001b[0m` : text);
