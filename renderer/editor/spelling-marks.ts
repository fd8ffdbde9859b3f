/** Marks under words that no dictionary has, with what to write instead when the mouse rests on one: a click on it writes it. */
import type { Misspelt } from '../spelling/spelling.ts';
import { misspelt, suggestions } from '../spelling/spelling.ts';
import { setting } from '../state/settings.ts';
import { goTo } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { writeInstead } from '../write/spelling-here.ts';
import { monaco, pathOf } from './monaco.ts';

/** After the last key and the last check: a word being typed is not yet wrong. */
const PAUSE = 900;

/** The editor knows it by this name. */
const INSTEAD = 'handsclear.instead';

/** Keeps the marks of one editor up to date until the returned function is called; the other one asks for them anew. */
export function markSpelling(editor: monaco.editor.IStandaloneCodeEditor): { readonly again: () => void; readonly stop: () => void } {
  const marks = editor.createDecorationsCollection();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let shown: readonly Misspelt[] = [];
  const mark = async (): Promise<void> => {
    const model = editor.getModel();
    if (!model) return;
    const version = model.getVersionId();
    const found = setting('spell-check') === 'on' ? await misspelt(pathOf(model)) : [];
    if (editor.getModel() !== model || model.getVersionId() !== version) return;
    shown = found ?? [];
    marks.set(
      shown.map(({ start, end }) => ({
        range: monaco.Range.fromPositions(model.getPositionAt(start), model.getPositionAt(end)),
        options: { inlineClassName: 'misspelt', stickiness: monaco.editor.TrackedRangeStickiness.NeverGrowsWhenTypingAtEdges },
      })),
    );
  };
  let offered: { readonly file: string; readonly found: Misspelt } | undefined;
  const instead = monaco.editor.registerCommand(INSTEAD, (_, word: string) => {
    if (offered && writeInstead(offered.file, offered.found, word)) goTo(offered.file, offered.found.start + word.length);
  });
  const hover = monaco.languages.registerHoverProvider('procedure', {
    async provideHover(model, position) {
      if (model !== editor.getModel()) return null;
      const offset = model.getOffsetAt(position);
      const found = shown.find(({ start, end }) => start <= offset && offset <= end);
      if (!found || model.getValue().slice(found.start, found.end) !== found.word) return null;
      const near = await suggestions(found.word);
      if (near.length === 0) return { contents: [{ value: words.misspeltNone }] };
      offered = { file: pathOf(model), found };
      const links = near.map((word) => `[${word}](command:${INSTEAD}?${encodeURIComponent(JSON.stringify([word]))})`);
      return { contents: [{ value: `${words.misspelt} ${links.join(', ')}`, isTrusted: { enabledCommands: [INSTEAD] } }] };
    },
  });
  return {
    again() {
      clearTimeout(timer);
      timer = setTimeout(() => void mark(), PAUSE);
    },
    stop() {
      clearTimeout(timer);
      hover.dispose();
      instead.dispose();
    },
  };
}
