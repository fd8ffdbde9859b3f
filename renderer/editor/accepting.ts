/**
 * When Enter and Tab take what is offered. The editor component goes on showing what it was told for fewer letters until the next answer is there; taken
 * then, a word would stand over another that was typed: 40 °C had become 40 bar. A word that goes on as the letters begin is meant, new answer or not. And what came up by itself at a space, before a letter was typed of
 * it, is taken with Tab or from the list only: Enter ends the line, as it does without a list.
 */
import type { monaco } from './component.ts';

/** Answers that are not there yet. */
let awaited = 0;
/** The last list came up by itself at a space. */
let unasked = false;

/** Around each question of what may stand at the caret. */
export async function whileAsked<T>(bySpace: boolean, ask: () => Promise<T>): Promise<T> {
  unasked = bySpace;
  awaited += 1;
  try {
    return await ask();
  } finally {
    awaited -= 1;
  }
}

export function acceptWithCare(editor: monaco.editor.IStandaloneCodeEditor, api: typeof monaco): monaco.IDisposable {
  /** Something of the list was chosen since a letter was typed. */
  let chosen = false;
  const typed = editor.onDidChangeModelContent(() => {
    chosen = false;
  });
  // Heard before the component looks for what the key does.
  const keys = editor.onKeyDown(({ keyCode }) => {
    const { KeyCode } = api;
    if ([KeyCode.UpArrow, KeyCode.DownArrow, KeyCode.PageUp, KeyCode.PageDown].includes(keyCode)) chosen = true;
    if (keyCode !== KeyCode.Enter && keyCode !== KeyCode.Tab) return;
    const untouched = keyCode === KeyCode.Enter && unasked && !chosen && afterSpace(editor);
    if ((awaited > 0 && !goesOnAsTyped(editor)) || untouched) editor.trigger('keys', 'hideSuggestWidget', undefined);
  });
  return {
    dispose: () => {
      typed.dispose();
      keys.dispose();
    },
  };
}

/** What is marked in the list begins with the letters before the caret. */
function goesOnAsTyped(editor: monaco.editor.IStandaloneCodeEditor): boolean {
  const [model, at] = [editor.getModel(), editor.getPosition()];
  const offered = editor
    .getContainerDomNode()
    .ownerDocument.querySelector('.suggest-widget.visible .monaco-list-row.focused .label-name')
    ?.textContent?.toLowerCase();
  if (!model || !at || offered === undefined) return false;
  const before = model
    .getLineContent(at.lineNumber)
    .slice(0, at.column - 1)
    .toLowerCase();
  // A name may have several words: as much of the end of the line as the offer begins with, from where a word begins.
  for (let length = Math.min(offered.length, before.length); length > 0; length -= 1)
    if (before.endsWith(offered.slice(0, length)) && !/[\p{L}\p{N}°%]$/u.test(before.slice(0, -length))) return true;
  return false;
}

function afterSpace(editor: monaco.editor.IStandaloneCodeEditor): boolean {
  const [model, at] = [editor.getModel(), editor.getPosition()];
  return model !== null && at !== null && at.column > 1 && model.getLineContent(at.lineNumber).charAt(at.column - 2) === ' ';
}
