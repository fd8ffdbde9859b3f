/**
 * Enter at the end of a step begins the next one with its number, as every list of a word processor does; Enter in a step without words ends the list.
 * A sentence on a line of its own without a number would go on with the step before it, and be one step with it. Where steps follow, their
 * numbers are off by one until "Renumber this procedure" is taken; the check says so. In a register Enter below a key goes one level in.
 */
import type { monaco } from './component.ts';
import { LANGUAGE, REGISTER } from './language.ts';

const STEP = /^(\s*)(\d{1,3})([.)])(\s+)(?=\S)/;
const BARE = /^\s*\d{1,3}[.)]\s*$/;

/** The label of the step after the one that stands in the line, or undefined where the line is no step. `before`: the line of the step before it. */
export function nextLabel(line: string, before: string | undefined): string | undefined {
  const [, indent = '', number, dot = '.', gap = ' '] = STEP.exec(line) ?? [];
  if (number === undefined) return undefined;
  // All ones: the writer leaves the counting to Markdown.
  const ones = number === '1' && before !== undefined && STEP.exec(before)?.[2] === '1';
  return `${indent}${ones ? 1 : Number(number) + 1}${dot}${gap}`;
}

export function numberSteps(editor: monaco.editor.IStandaloneCodeEditor, api: typeof monaco): monaco.IDisposable {
  /** The line whose number was put in by Enter and nothing typed behind it yet. */
  let given: number | undefined;
  const put = (range: monaco.IRange, text: string): void => {
    editor.pushUndoStop();
    editor.executeEdits('keys', [{ range, text, forceMoveMarkers: true }]);
  };
  return editor.onKeyDown((event) => {
    const model = editor.getModel();
    const at = editor.getSelection();
    if (!model || !at?.isEmpty() || model.getLanguageId() !== LANGUAGE) return;
    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    const number = at.positionLineNumber;
    const line = model.getLineContent(number);
    if (at.positionColumn !== line.length + 1) return;
    // Who types the number too means this one.
    if (given === number && BARE.test(line) && /^\d$/.test(event.browserEvent.key))
      return editor.setSelection(new api.Range(number, line.search(/\d/) + 1, number, line.length + 1));
    if (event.keyCode !== api.KeyCode.Enter || isOffered(editor)) return;
    if (BARE.test(line) && number > 1) {
      event.preventDefault();
      event.stopPropagation();
      return put(new api.Range(number, 1, number, line.length + 1), '');
    }
    const label = nextLabel(line, number > 1 ? stepBefore(model, number) : undefined);
    if (label === undefined || inFront(model, number)) return;
    event.preventDefault();
    event.stopPropagation();
    put(new api.Range(number, line.length + 1, number, line.length + 1), `\n${label}`);
    given = number + 1;
    editor.revealPosition({ lineNumber: number + 1, column: 1 });
  });
}

/** The list of what may stand at the caret is there, and Enter takes from it. */
const isOffered = (editor: monaco.editor.IStandaloneCodeEditor): boolean =>
  editor.getContainerDomNode().ownerDocument.querySelector('.suggest-widget.visible') !== null;

function stepBefore(model: monaco.editor.ITextModel, from: number): string | undefined {
  for (let line = from - 1; line > 0; line -= 1) {
    const text = model.getLineContent(line);
    if (STEP.test(text)) return text;
    if (/^#/.test(text)) return undefined;
  }
  return undefined;
}

/** Lines of the front matter hold no steps. */
function inFront(model: monaco.editor.ITextModel, number: number): boolean {
  if (model.getLineContent(1) !== '---') return false;
  for (let line = 2; line < number; line += 1) if (/^---\s*$/.test(model.getLineContent(line))) return false;
  return true;
}

export function indentRegisters(api: typeof monaco): void {
  const { Indent } = api.languages.IndentAction;
  api.languages.setLanguageConfiguration(REGISTER, {
    onEnterRules: [{ beforeText: /^\s*(?![#\s-])[^#\n]*:\s*$/, afterText: /^$/, action: { indentAction: Indent } }],
  });
}
