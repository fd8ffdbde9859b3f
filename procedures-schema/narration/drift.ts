/** Where the recording says otherwise than the text: every kind of drift, in the order of the recording, then of the text. */
import type { AlignedPassage, Alignment, Take } from './alignment-model.ts';
import { shortTime } from './clock.ts';
import { DRIFT, type Drift, type DriftKind } from './drift-model.ts';
import { movedRuns } from './drift-order.ts';
import { valueDrifts } from './drift-values.ts';
import type { Passage, Seconds } from './model.ts';

/** Kinds of passage that must be spoken; a title or a remark may be told freely. */
const MUST: ReadonlySet<Passage['kind']> = new Set(['step', 'branch', 'notice']);

export function driftsOf(alignment: Alignment): readonly Drift[] {
  const { passages, takes } = alignment;
  const spoken = takes.filter(({ role }) => role !== 'stray');
  return [
    ...silent(alignment),
    ...late(alignment),
    ...strays(alignment),
    ...movedRuns(alignment).map((run) => moved(run, passages)),
    ...spoken.flatMap((take) => values(take, alignment)),
    ...waits(alignment),
    ...unsure(alignment),
  ].sort(
    (a, b) =>
      (a.start ?? 0) - (b.start ?? 0) || (a.span?.start ?? 0) - (b.span?.start ?? 0) || (a.kind < b.kind ? -1 : a.kind > b.kind ? 1 : 0),
  );
}

interface Where {
  readonly passages: readonly AlignedPassage[];
  readonly start?: Seconds;
  readonly end?: Seconds;
  readonly actual?: string;
  readonly expected?: string;
  readonly severity?: Drift['severity'];
}

function drift(kind: DriftKind, message: string, { passages, severity, ...where }: Where): Drift {
  const [first] = passages;
  const last = passages.at(-1);
  const span = first && last ? { span: { start: first.passage.span.start, end: last.passage.span.end } } : {};
  const { severity: usual, why, remedy } = DRIFT[kind];
  return {
    kind,
    severity: severity ?? usual,
    passages: passages.map(({ passage }) => passage.key),
    ...span,
    message,
    ...where,
    why,
    remedy,
  };
}

const NAMES: Readonly<Record<Passage['kind'], (passage: Passage) => string>> = {
  title: () => 'The opening',
  needs: () => 'The list of what is needed',
  remark: ({ sectionTitle }) => `A remark in ${sectionTitle}`,
  section: ({ sectionTitle }) => `The title ${sectionTitle}`,
  notice: ({ fullLabel }) => `The notice before step ${fullLabel}`,
  step: ({ fullLabel }) => `Step ${fullLabel}`,
  branch: ({ fullLabel }) => `A way on from step ${fullLabel}`,
  end: () => 'The closing words',
};
const name = ({ passage }: AlignedPassage): string => NAMES[passage.kind](passage);

/** Neighbours that are not spoken are told as one; a notice is told by itself when its step is there. */
function silent(alignment: Alignment): Drift[] {
  const { passages, takes } = alignment;
  const out: Drift[] = [];
  const heard = new Set(takes.filter(({ role }) => role === 'main').map(({ passage }) => passages[passage]?.passage.key));
  let run: AlignedPassage[] = [];
  const close = (): void => {
    const [first] = run;
    const last = run.at(-1);
    if (first && last) {
      const place =
        first === last ? `${name(first)} is` : `${name(first)} up to ${name(last).replace(/^./, (letter) => letter.toLowerCase())} are`;
      out.push(drift('not-spoken', `${place} not spoken.`, { passages: run, expected: first.passage.said }));
    }
    run = [];
  };
  for (const one of passages) {
    const { kind, key, guards } = one.passage;
    if (!MUST.has(kind)) continue;
    if (heard.has(key)) close();
    else if (guards !== undefined && heard.has(guards)) {
      close();
      out.push(drift('notice-missing', `${name(one)} is not spoken.`, { passages: [one], expected: one.passage.said }));
    } else run.push(one);
  }
  close();
  return out;
}

function late({ passages }: Alignment): Drift[] {
  const mains = new Map(passages.flatMap(({ passage, main }) => (main ? [[passage.key, main] as const] : [])));
  return passages.flatMap((one) => {
    const step = mains.get(one.passage.guards ?? '');
    if (one.main === undefined || step === undefined || one.main.from < step.from) return [];
    const { start, end } = one.main;
    return [
      drift('notice-late', `${name(one)} is spoken at ${shortTime(start)}, after its step at ${shortTime(step.start)}.`, {
        passages: [one],
        start,
        end,
      }),
    ];
  });
}

/** Words that tell something, without which a run is taken for a slip of the tongue. */
const TELLING = 5;
const QUOTED = 24;
const IDLE =
  /^(?:the|a|an|and|or|of|to|in|on|at|by|for|from|with|it|is|are|be|that|this|you|we|i|so|now|okay|just|here|there|then|will|going)$/;

function strays({ heard, takes, rest, passages }: Alignment): Drift[] {
  const runs = rest
    .map(({ from, to }) => ({ from, to, words: heard.slice(from, to) }))
    .filter(({ words }) => words.filter(({ kind, key }) => kind !== 'word' || !IDLE.test(key)).length >= TELLING)
    .map(({ words }) => {
      const [start, end] = [words[0]?.start ?? 0, words.at(-1)?.end ?? 0];
      const quote = words
        .slice(0, QUOTED)
        .map(({ key }) => key.replace(/^[#~=]/, ''))
        .join(' ');
      const actual = words.length > QUOTED ? `${quote} ...` : quote;
      return drift('not-in-text', `At ${shortTime(start)} something is spoken that the text does not have.`, {
        passages: [],
        start,
        end,
        actual,
      });
    });
  const again = takes
    .filter(({ role, passage }) => role === 'stray' && MUST.has(passages[passage]?.passage.kind ?? 'end'))
    .map(({ passage, start, end }) => {
      const one = passages[passage] as AlignedPassage;
      const message = `At ${shortTime(start)} words like those of ${name(one).replace(/^./, (letter) => letter.toLowerCase())} are spoken, where the text does not have them.`;
      return drift('not-in-text', message, { passages: [], start, end, actual: one.passage.said });
    });
  return [...runs, ...again];
}

function moved(run: readonly Take[], passages: readonly AlignedPassage[]): Drift {
  const own = run.map(({ passage }) => passages[passage] as AlignedPassage);
  const [first] = run;
  const label =
    own.length === 1 ? `${name(own[0] as AlignedPassage)} is` : `${name(own[0] as AlignedPassage)} and ${own.length - 1} after it are`;
  return drift('other-order', `${label} spoken at ${shortTime(first?.start ?? 0)}, out of the order of the text.`, {
    passages: own,
    start: first?.start ?? 0,
    end: run.at(-1)?.end ?? 0,
  });
}

function values(take: Take, alignment: Alignment): Drift[] {
  const one = alignment.passages[take.passage] as AlignedPassage;
  return valueDrifts(one, take, alignment).map(({ kind, actual, expected, heard: token }) => {
    const start = token?.start ?? take.start;
    const said =
      kind === 'model-not-said'
        ? `${actual} is named where the text says ${expected}`
        : `${actual} is heard where the text says ${expected}`;
    return drift(kind, `${name(one)}, at ${shortTime(start)}: ${said}.`, {
      passages: [one],
      start,
      end: token?.end ?? take.end,
      actual,
      expected,
    });
  });
}

/** Below this share of its words a passage is taken for spoken by its place alone. */
const HARDLY = 0.2;

function unsure({ passages, takes }: Alignment): Drift[] {
  return takes.flatMap(({ passage, role, confidence, start, end }) => {
    const one = passages[passage] as AlignedPassage;
    if (role === 'stray' || confidence >= HARDLY || !MUST.has(one.passage.kind)) return [];
    return [
      drift('hardly-heard', `${name(one)} is hardly understood at ${shortTime(start)}.`, {
        passages: [one],
        start,
        end,
        expected: one.passage.said,
      }),
    ];
  });
}

/** A wait is shown from the first word of its step to the first word of the next; what rounding of captions takes is forgiven. Seconds. */
const FORGIVEN = 1;

function waits({ passages, takes, seconds }: Alignment): Drift[] {
  return takes.flatMap((take, index) => {
    const one = passages[take.passage] as AlignedPassage;
    const { wait } = one.passage;
    if (take.role !== 'main' || wait === 0) return [];
    const shown = (takes[index + 1]?.start ?? seconds) - take.start;
    if (shown >= wait - FORGIVEN) return [];
    // Who hears how long it is will wait; who hears nothing copies the film.
    const told = one.tokens.some(
      ({ kind, unit }, at) => kind === 'unit' && /^(?:s|min|h|d)$/.test(unit ?? '') && (take.laidOn[at] ?? -1) !== -1,
    );
    const message = `${name(one)} waits ${shortTime(wait)}, the film goes on after ${shortTime(shown)}${told ? ', though the voice says how long' : ''}.`;
    return [
      drift('wait-short', message, {
        passages: [one],
        start: take.start,
        end: take.start + shown,
        actual: shortTime(shown),
        expected: shortTime(wait),
        ...(told ? { severity: 'advice' as const } : {}),
      }),
    ];
  });
}
