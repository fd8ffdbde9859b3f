/** The editor component alone with one text: what the app's start is compared with. */
import * as monaco from 'monaco-editor/editor/editor.api.js';
import EditorWorker from 'monaco-editor/editor/editor.worker.js?worker';

(globalThis as { MonacoEnvironment?: unknown }).MonacoEnvironment = { getWorker: () => new EditorWorker() };
const text = await (await fetch('./text.md')).text();
const editor = monaco.editor.create(document.getElementById('text') as HTMLElement, { value: text, language: 'plaintext', wordWrap: 'on' });
editor.focus();
// For whoever measures: where the caret goes.
Object.assign(globalThis, { editor });
