/** Answers a walk's questions: as told on the command line, else within limits and "no", and never the same "no" for ever. */
import type { Layout, WalkPosition } from '../../procedures-schema/index.ts';
import { CannotRun } from '../command.ts';

export interface Answers {
  /** The answer, and whether somebody gave it. */
  answer(position: WalkPosition, layout: Layout): { readonly yes: boolean; readonly told: boolean };
  /** What was told and never asked for on the walk: a slip in a name, or a place that the walk does not come to. */
  unasked(): readonly string[];
  /** Everything that was asked, as it is named in the text. */
  asked(): readonly string[];
}

const OUTCOMES = ['under', 'within', 'over', 'pass', 'fail'];

/** `told`: "drift=over", "the seal is torn=yes". Several for one measurement are its readings in turn. */
export function answersFrom(told: readonly string[]): Answers {
  const readings = new Map<string, string[]>();
  const facts = new Map<string, boolean>();
  for (const one of told) {
    const at = one.lastIndexOf('=');
    const [subject, value] = [
      one.slice(0, at).trim().toLowerCase(),
      one
        .slice(at + 1)
        .trim()
        .toLowerCase(),
    ];
    if (at < 1) throw new CannotRun(`--outcome wants "measurement=over" or "words=yes", not "${one}".`);
    if (OUTCOMES.includes(value)) readings.set(subject, [...(readings.get(subject) ?? []), value]);
    else if (value === 'yes' || value === 'no') facts.set(subject, value === 'yes');
    else throw new CannotRun(`"${value}" is no outcome: ${OUTCOMES.join(', ')}, yes or no.`);
  }
  const now = new Map<string, { value: string; told: boolean }>();
  const times = new Map<number, number>();
  const named = new Set<string>();
  const used = new Set<string>();
  return {
    unasked: () => [
      ...[...readings].flatMap(([subject, left]) => left.map((value) => `${subject}=${value}`)),
      ...[...facts].filter(([subject]) => !used.has(subject)).map(([subject, yes]) => `${subject}=${yes ? 'yes' : 'no'}`),
    ],
    asked: () => [...named],
    answer({ node, state, stop }, layout) {
      if (stop.kind !== 'question') return { yes: false, told: false };
      if (stop.subject !== undefined && stop.outcome !== undefined) {
        named.add(stop.subject);
        const at = layout.outcomes.indexOf(stop.subject);
        // Every outcome is still open: it was read just now.
        const fresh = !now.has(stop.subject) || state[layout.outcome + at] === 31;
        if (fresh) {
          const next = readings.get(stop.subject.toLowerCase())?.shift();
          const usual = stop.outcome === 'pass' || stop.outcome === 'fail' ? 'pass' : 'within';
          now.set(stop.subject, { value: next ?? usual, told: next !== undefined });
        }
        const { value, told: given } = now.get(stop.subject) as { value: string; told: boolean };
        return { yes: stop.outcome === 'not-within' ? value !== 'within' : stop.outcome === value, told: given };
      }
      const words = stop.text.toLowerCase().replace(/[.,:]+$/, '');
      named.add(words);
      const given = [...facts].find(([key]) => words.includes(key));
      if (given !== undefined) {
        used.add(given[0]);
        return { yes: given[1], told: true };
      }
      const before = times.get(node) ?? 0;
      times.set(node, before + 1);
      return { yes: before > 0, told: false };
    },
  };
}
