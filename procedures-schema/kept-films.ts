/** Films held against their procedures, kept from one edit to the next. What a film is, and whether it fits, is for `narration`. */
import type { FilmFacts, LibraryFacts } from './checks/index.ts';
import { inOrder } from './in-order.ts';
import { filmFactsOf, isFilmRecord } from './narration/index.ts';

interface Held {
  readonly text: string;
  readonly procedure: unknown;
  readonly captioned: boolean;
  readonly facts: FilmFacts;
}

export class KeptFilms {
  private held = new Map<string, Held>();

  /** A film is held against its procedure again when one of the two changed; each reading of a procedure is a value of its own. */
  of(library: Omit<LibraryFacts, 'films'>, texts: ReadonlyMap<string, string>): readonly FilmFacts[] {
    const before = this.held;
    this.held = new Map();
    const paths = [...texts.keys()].filter(isFilmRecord).sort(inOrder);
    const shownBy = ({ procedure }: FilmFacts): unknown => library.procedures.find(({ head }) => head.id === procedure);
    const captioned = ({ captions }: FilmFacts): boolean => captions !== undefined && library.paths.has(captions);
    return paths.map((path) => {
      const text = texts.get(path) as string;
      const known = before.get(path);
      const same = known?.text === text && known.procedure === shownBy(known.facts) && known.captioned === captioned(known.facts);
      const facts = same ? known.facts : filmFactsOf(path, text, library);
      this.held.set(path, { text, procedure: shownBy(facts), captioned: captioned(facts), facts });
      return facts;
    });
  }
}
