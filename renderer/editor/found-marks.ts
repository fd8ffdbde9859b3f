/** Marks on the paper where the text has what is looked for. Marks; finds nothing. */
import { shown } from '../state/shown.ts';
import { hitAt, sought } from '../state/sought.ts';
import { monaco, pathOf } from './monaco.ts';

/** Keeps the marks of one editor up to date until the returned function is called. */
export function markFound(editor: monaco.editor.IStandaloneCodeEditor): () => void {
  const marks = editor.createDecorationsCollection();
  const mark = (): void => {
    const model = editor.getModel();
    const { open, found } = sought.get();
    if (!model || !open || pathOf(model) !== shown.get().file) return marks.clear();
    const here = hitAt(found, shown.get().caret);
    marks.set(
      found.map(({ start, end }, index) => ({
        range: monaco.Range.fromPositions(model.getPositionAt(start), model.getPositionAt(end)),
        options: {
          className: index === here ? 'found-here' : 'found-text',
          stickiness: monaco.editor.TrackedRangeStickiness.NeverGrowsWhenTypingAtEdges,
        },
      })),
    );
  };
  const stops = [sought.listen(mark, 'found', 'open'), shown.listen(mark, 'file', 'caret')];
  return () => {
    for (const stop of stops) stop();
    marks.clear();
  };
}
