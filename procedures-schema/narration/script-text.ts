/** A script as files to hand out: what the voice reads, the list of shots, chapters for a description. Markdown and plain text. */
import { shortTime } from './clock.ts';
import type { Passage, Script, ScriptChapter, Shot } from './model.ts';
import { LONGEST_SHOWN } from './script.ts';

const heading = ({ number, revision, title, model }: Script, what: string): string =>
  `# ${what}: ${number}${revision === undefined ? '' : `, revision ${revision}`}, ${title}${model === undefined ? '' : ` (${model} only)`}\n`;

const estimate = ({ pace, seconds }: Script): string =>
  `All times are estimates: the voice at ${pace} words a minute, actions by a table of guesses, waits as written (on film at most ${LONGEST_SHOWN} s of each). Together ${shortTime(seconds)}.`;

/** The voice's text with labels, times and what stands on the screen. */
export function scriptMarkdown(script: Script): string {
  const out = [heading(script, 'Script'), `${estimate(script)} Read the lines as they stand; what is in brackets is not read.\n`];
  for (const passage of script.passages) {
    if (passage.kind === 'section') out.push(`## ${passage.sectionTitle}\n`);
    out.push(`(${place(passage)}, ${shortTime(passage.time.start)}, ${lasting(passage)})\n`);
    out.push(`${passage.spoken}\n`);
    if (passage.screen.length > 0 && passage.kind !== 'section') out.push(`(On the screen: ${passage.screen.join('; ')})\n`);
  }
  return out.join('\n');
}

/** What must be seen while each passage is said. */
export function shotsMarkdown(script: Script): string {
  const rows = script.passages
    .filter(({ kind }) => kind !== 'section' && kind !== 'remark')
    .map((passage) => {
      const { shot } = passage;
      return [
        place(passage),
        shot.see.join(', ') || '-',
        shot.from,
        inView(shot) || '-',
        passage.screen.join('; ') || '-',
        lasting(passage),
        shot.care || '-',
      ];
    });
  const head = ['passage', 'must be seen', 'from where', 'in the picture', 'on the screen', 'estimated time', 'take care'];
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((cell) => cell.replaceAll('|', '\\|').replaceAll('\n', ' ')).join(' | ')} |`;
  const table = [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
  return `${heading(script, 'Shots')}\n${estimate(script)}\n\nA film is no lockout: whoever films works by the rules of the site.\n\n${table}\n`;
}

/** "0:00 Start" and so on, one chapter a line: to be put into the description of a film. */
export const chapterList = (chapters: readonly ScriptChapter[]): string =>
  chapters.map(({ title, start }) => `${shortTime(start)} ${title}\n`).join('');

const inView = ({ inView: things, figures }: Shot): string => [...things, ...figures].join(', ');

function place({ kind, fullLabel }: Passage): string {
  if (kind === 'step') return `step ${fullLabel}`;
  if (kind === 'branch') return `step ${fullLabel}, way on`;
  if (kind === 'notice') return `notice before step ${fullLabel}`;
  return kind;
}

function lasting({ time, wait }: Passage): string {
  const parts = [`voice ${seconds(time.speech)}`, ...(time.action - wait > 0 ? [`action ${seconds(time.action - wait)}`] : [])];
  return [...parts, ...(wait > 0 ? [`wait ${seconds(wait)} as written`] : [])].join(', ');
}

const seconds = (value: number): string => (value < 100 ? `${Math.round(value)} s` : shortTime(value));
