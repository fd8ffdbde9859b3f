/** Chapters with the times of a recording: each section where its title, or else its first passage, is heard. Sections not heard have none. */
import type { Alignment } from './alignment-model.ts';
import type { ScriptChapter } from './model.ts';

export function recordedChapters({ passages, seconds }: Alignment): readonly ScriptChapter[] {
  const starts = new Map<string, number>();
  for (const { passage, main } of passages)
    if (main && passage.section !== '' && !starts.has(passage.sectionTitle)) starts.set(passage.sectionTitle, main.start);
  const found = [...starts].map(([title, start]) => ({ title, start })).sort((a, b) => a.start - b.start);
  const all = found[0]?.start === 0 ? found : [{ title: 'Start', start: 0 }, ...found];
  return all.map(({ title, start }, index) => ({ title, start, end: all[index + 1]?.start ?? Math.max(seconds, start) }));
}
