/** The editor component made ready for the files of a library: their models, what is offered while writing, what is told on resting. The only door to it. */
import EditorWorker from 'monaco-editor/editor/editor.worker.js?worker';
import { core, documents } from '../state/workspace.ts';
import { monaco } from './component.ts';
import { defineTheme, LANGUAGE, REGISTER, registerLanguage } from './language.ts';

let ready = false;

/** Once, before the first editor. */
export function prepareEditor(): typeof monaco {
  if (ready) return monaco;
  ready = true;
  (globalThis as { MonacoEnvironment?: unknown }).MonacoEnvironment = { getWorker: () => new EditorWorker() };
  registerLanguage();
  defineTheme();
  for (const language of [LANGUAGE, REGISTER]) {
    monaco.languages.registerCompletionItemProvider(language, { triggerCharacters: ['[', ' ', '{', ':', '#'], provideCompletionItems });
    monaco.languages.registerHoverProvider(language, { provideHover });
  }
  // Nothing of a list that came up by itself is marked yet: this key takes the first of it.
  monaco.editor.addKeybindingRule({
    keybinding: monaco.KeyCode.Tab,
    command: 'focusAndAcceptSuggestion',
    when: 'textInputFocus && suggestWidgetVisible && !suggestWidgetHasFocusedSuggestion',
  });
  return monaco;
}

export const pathOf = (model: monaco.editor.ITextModel): string => model.uri.path.replace(/^\//, '');
export const uriOf = (path: string): monaco.Uri => monaco.Uri.from({ scheme: 'library', path: `/${path}` });

/** The model of a file, made of the text as this window has it. Line ends are those of the text. */
export function modelOf(path: string): monaco.editor.ITextModel {
  const known = monaco.editor.getModel(uriOf(path));
  if (known) return known;
  return monaco.editor.createModel(documents.get(path)?.text ?? '', path.endsWith('.md') ? LANGUAGE : REGISTER, uriOf(path));
}

const rangeOf = (model: monaco.editor.ITextModel, start: number, end: number): monaco.Range =>
  monaco.Range.fromPositions(model.getPositionAt(start), model.getPositionAt(end));

/**
 * Whether the first of a list that comes up by itself is marked, so that Enter takes it. After a space it is not, until a letter was typed of it: a line may
 * end in a number and a space.
 */
function markFirst(model: monaco.editor.ITextModel, is: boolean): void {
  for (const editor of monaco.editor.getEditors())
    if (editor.getModel() === model) editor.updateOptions({ suggest: { selectionMode: is ? 'always' : 'whenQuickSuggestion' } });
}

async function provideCompletionItems(
  model: monaco.editor.ITextModel,
  position: monaco.Position,
  context: monaco.languages.CompletionContext,
): Promise<monaco.languages.CompletionList> {
  const offset = model.getOffsetAt(position);
  markFirst(model, context.triggerCharacter !== ' ');
  const answer = await core.ask('complete', { file: pathOf(model), offset, text: model.getValue() });
  // A space offers something only where a step begins or a unit may follow; in running prose it would be in the way.
  if (context.triggerCharacter === ' ' && !['step start', 'unit', 'front matter', 'register'].includes(answer.place))
    return { suggestions: [] };
  // Most offers stand in one place.
  let last: { readonly start: number; readonly end: number; readonly range: monaco.Range; readonly typed: string } | undefined;
  const placeOf = ({ start, end }: { readonly start: number; readonly end: number }) => {
    if (last?.start !== start || last.end !== end)
      last = { start, end, range: rangeOf(model, start, end), typed: model.getValueInRange(rangeOf(model, start, offset)) };
    return last;
  };
  return {
    incomplete: answer.more,
    suggestions: answer.items.map((item, index) => ({
      label: { label: item.label, description: item.detail },
      kind: monaco.languages.CompletionItemKind.Text,
      insertText: item.insert,
      ...(item.note === undefined ? {} : { documentation: item.note }),
      range: placeOf(item.replace).range,
      filterText: placeOf(item.replace).typed + item.label,
      sortText: String(index).padStart(4, '0'),
    })),
  };
}

async function provideHover(model: monaco.editor.ITextModel, position: monaco.Position): Promise<monaco.languages.Hover | null> {
  const found = await core.ask('hover', { file: pathOf(model), offset: model.getOffsetAt(position) });
  const [first] = found;
  if (!first) return null;
  const asText = (text: string): string => text.replace(/[\\`*_{}[\]()#+\-.!|<>]/g, '\\$&');
  return {
    range: rangeOf(model, first.span.start, first.span.end),
    contents: found.map(({ title, lines }) => ({ value: [`**${asText(title)}**`, ...lines.map(asText)].join('  \n') })),
  };
}

export { monaco };
