/** Where caret and page stood in each text when it was left, so that whoever comes back goes on there. For this window only. */
import type { monaco } from './component.ts';

type Made = monaco.editor.IStandaloneCodeEditor;

const left = new Map<string, monaco.editor.ICodeEditorViewState>();

export function leave(made: Made, file: string): void {
  const state = made.saveViewState();
  if (state) left.set(file, state);
}

export const wasIn = (file: string): boolean => left.has(file);

/** The caret alone: what was marked is forgotten elsewhere, and the next key would take its place. */
export function comeBack(made: Made, file: string): void {
  const state = left.get(file);
  if (state) made.restoreViewState(state);
  const caret = made.getPosition();
  if (caret) made.setPosition(caret);
}
