/** A state in words: each source from live to proved dead, what is open, out, loose or put in. What is required at this point of the text, never a fact. */
import { isolated, locked, proved, relieved } from './safety.ts';
import { COVER, FASTENER, type Layout, PART, type State } from './state.ts';

export type SourceState = 'live' | 'isolated' | 'locked' | 'let out or held' | 'proved dead';

export interface ToldState {
  readonly sources: readonly { readonly name: string; readonly state: SourceState }[];
  readonly open: readonly string[];
  readonly out: readonly string[];
  readonly loose: readonly string[];
  readonly temporary: readonly string[];
  readonly peopleClear: boolean;
  readonly toolsOut: boolean;
}

export function tellState(layout: Layout, state: State): ToldState {
  const { table } = layout;
  const named = (names: readonly string[], base: number, values: readonly number[]): string[] =>
    names.filter((_, index) => values.includes(state[base + index] ?? 0));
  return {
    sources: table.sources.map((row) => {
      // Only what a source has can be done to it: a raised load has no isolator, a plain supply nothing to let out.
      const steps = [
        ...(row.isolate.length > 0
          ? ([
              [isolated(layout, state, row), 'isolated'],
              [locked(layout, state, row, 255), 'locked'],
            ] as const)
          : []),
        ...(row.source.stored ? ([[relieved(layout, state, row), 'let out or held']] as const) : []),
        ...(row.provable ? ([[proved(layout, state, row), 'proved dead']] as const) : []),
      ];
      let reached: SourceState = 'live';
      for (const [holds, name] of steps) {
        if (!holds) break;
        reached = name;
      }
      return { name: row.source.name, state: reached };
    }),
    open: named(table.coverNames, layout.cover, [COVER.open, COVER.given]),
    out: named(table.partNames, layout.part, [PART.out]),
    loose: named(table.fastenerNames, layout.fastener, [FASTENER.loose, FASTENER.hand]),
    temporary: named(layout.temporaries, layout.temporary, [1]),
    peopleClear: state[layout.people] === 1,
    toolsOut: state[layout.tools] === 1,
  };
}
