/**
 * When Enter and Tab take what is offered. The editor component goes on showing what it was told for fewer letters until the next answer is there; taken
 * then, a word would stand over the one that was typed: 40 °C had become 40 bar. And what came up by itself at a space, before a letter was typed of
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
    if (awaited > 0 || untouched) editor.trigger('keys', 'hideSuggestWidget', undefined);
  });
  return {
    dispose: () => {
      typed.dispose();
      keys.dispose();
    },
  };
}

function afterSpace(editor: monaco.editor.IStandaloneCodeEditor): boolean {
  const [model, at] = [editor.getModel(), editor.getPosition()];
  return model !== null && at !== null && at.column > 1 && model.getLineContent(at.lineNumber).charAt(at.column - 2) === ' ';
}
