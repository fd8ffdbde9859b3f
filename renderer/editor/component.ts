/**
 * The editor component with the few of its parts that a proof sheet needs, and nothing of ours: it is by far the largest piece of the page, and so it
 * is fetched and begun while the host is still reading the library.
 */
import 'monaco-editor/features/clipboard/register.js';
import 'monaco-editor/features/hover/register.js';
// Its entry under features/ holds only a part of it, without the list.
import 'monaco-editor/editor/contrib/suggest/browser/suggestController.js';
import 'monaco-editor/features/wordOperations/register.js';
import 'monaco-editor/features/linesOperations/register.js';
import 'monaco-editor/features/multicursor/register.js';
import 'monaco-editor/features/dnd/register.js';
import 'monaco-editor/features/toggleTabFocusMode/register.js';

export * as monaco from 'monaco-editor/editor/editor.api.js';
