/** The script of a procedure: its passages with spoken words, estimated times, chapters and hashes. Writing it down is `script-text.ts`. */
import type { LibraryFacts, ProcedureFacts } from '../checks/index.ts';
import { decimalMarkOf } from '../quantities/index.ts';
import { shortHash, textHash } from './hash.ts';
import type { Passage, Script, ScriptChapter } from './model.ts';
import { speechSeconds, USUAL_PACE } from './pace.ts';
import { type BarePassage, passagesOf } from './passages.ts';
import { spokenForm } from './spoken.ts';

export interface ScriptChoice {
  /** Registered name of the only model to tell of. */
  readonly model?: string;
  /** Words a minute; USUAL_PACE if not given. */
  readonly pace?: number;
}

/** A film keeps a wait up to this long and cuts a longer one, its length said and shown. Seconds; a choice of ours. */
export const LONGEST_SHOWN = 20;
/** Between two passages. */
const BREATH = 0.6;

export function scriptOf(facts: ProcedureFacts, library: LibraryFacts, choice: ScriptChoice = {}): Script {
  const pace = choice.pace ?? USUAL_PACE;
  const mark = decimalMarkOf(library.registers.house.language);
  let at = 0;
  const passages = passagesOf(facts, library, choice.model).map((bare): Passage => {
    const { action, ...rest } = bare;
    const spoken = spokenForm(bare.said, mark);
    const speech = speechSeconds(spoken, pace);
    const shown = Math.max(speech, action) + Math.min(bare.wait, LONGEST_SHOWN);
    const time = { start: at, speech, action: action + bare.wait, total: shown + BREATH };
    at += time.total;
    return { ...rest, spoken, time, hashes: hashesOf(bare, spoken) };
  });
  const { head } = facts;
  return {
    number: head.id,
    title: head.title,
    ...(head.revision === undefined ? {} : { revision: head.revision }),
    ...(choice.model === undefined ? {} : { model: choice.model }),
    pace,
    ...(mark === 'point' ? {} : { mark }),
    passages,
    chapters: chaptersOf(passages, at),
    seconds: at,
    textHash: textHash(passages.map(({ key, hashes }) => `${key} ${hashes.voice} ${hashes.picture} ${hashes.screen}`).join('\n')),
  };
}

function hashesOf(bare: BarePassage, spoken: string): Passage['hashes'] {
  const { shot } = bare;
  // Order is kept: what is done first is seen first. The care line follows from other steps and changes no picture.
  const picture = JSON.stringify([shot.see, shot.from, shot.inView, shot.figures, bare.wait]);
  return {
    voice: shortHash(spoken),
    picture: shortHash(picture),
    screen: shortHash(JSON.stringify([bare.said, bare.label ?? '', bare.screen])),
  };
}

/** One for the opening, one for each section. */
function chaptersOf(passages: readonly Passage[], end: number): readonly ScriptChapter[] {
  const starts = passages.filter(({ kind }, index) => index === 0 || kind === 'section');
  return starts.map(({ kind, sectionTitle, time }, index) => ({
    title: kind === 'section' ? sectionTitle : 'Start',
    start: time.start,
    end: starts[index + 1]?.time.start ?? end,
  }));
}
