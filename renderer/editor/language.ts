/** How the source is inked: headings, labels, references, braces, notices, front matter. Only looks; what a text means comes from the worker. */
import { monaco } from './component.ts';

export const LANGUAGE = 'procedure';
export const REGISTER = 'register';

export function registerLanguage(): void {
  if (monaco.languages.getLanguages().some(({ id }) => id === LANGUAGE)) return;
  // A language that was not registered has no text: what is offered, told and inked for it would reach nobody.
  for (const id of [LANGUAGE, REGISTER]) monaco.languages.register({ id });
  monaco.languages.setMonarchTokensProvider(LANGUAGE, {
    start: 'head',
    tokenizer: {
      head: [
        [/^---\s*$/, { token: 'fence', next: '@front' }],
        [/^/, { token: '', next: '@body' }],
      ],
      front: [
        [/^---\s*$/, { token: 'fence', next: '@body' }],
        [/^(\s*-?\s*)([\w ]+)(:)(?=\s|$)/, ['', 'field', 'quiet']],
        [/#.*$/, 'quiet'],
        [/./, 'value'],
      ],
      body: [
        [/^#{1,6}\s.*$/, 'heading'],
        [/^\s*:::\s*(danger|warning|caution|notice)\b.*$/, 'notice'],
        [/^\s*:::\s*$/, 'quiet'],
        [/^\s*(?:\d{1,3}(?:\.\d{1,3})*[.)]|[A-Za-z][.)]|\([a-z]\))(?=\s)/, 'label'],
        [/^\s*[-*](?=\s)/, 'quiet'],
        [/\[[^\]]*\]/, 'reference'],
        [/\{[^}]*\}/, 'quiet'],
        [/\*\*[^*]+\*\*/, 'strong'],
        [/^\|.*$/, 'table'],
        [/./, ''],
      ],
    },
  });
  monaco.languages.setMonarchTokensProvider(REGISTER, {
    tokenizer: {
      root: [
        [/#.*$/, 'quiet'],
        [/^(\s*-?\s*)([^:#{}[\]]+)(:)(?=\s|$)/, ['', 'field', 'quiet']],
        [/./, 'value'],
      ],
    },
  });
}

/** Ink on paper. Contrast of every colour with the paper is 4.5 to 1 or more (measured by a test). */
export const INKS = {
  '': '24282b',
  heading: '7a2e12',
  label: '24282b',
  reference: '17507a',
  notice: '9a2a10',
  field: '5a4a2a',
  value: '24282b',
  quiet: '6b6a64',
  fence: '6b6a64',
  strong: '24282b',
  table: '3a4a44',
} as const;
export const PAPER = '#fffefb';

export function defineTheme(): void {
  monaco.editor.defineTheme('proof', {
    base: 'vs',
    inherit: false,
    rules: Object.entries(INKS).map(([token, foreground]) => ({
      token,
      foreground,
      ...(token === 'heading' || token === 'label' || token === 'strong' || token === 'notice' ? { fontStyle: 'bold' } : {}),
    })),
    colors: {
      'editor.background': PAPER,
      'editor.foreground': `#${INKS['']}`,
      'editor.selectionBackground': '#cfe0ea',
      'editorCursor.foreground': '#7a2e12',
      'editorWidget.background': '#ffffff',
      'editorWidget.border': '#b9b5a8',
      'editorHoverWidget.background': '#ffffff',
      'editorHoverWidget.border': '#b9b5a8',
      'editorSuggestWidget.background': '#ffffff',
      'editorSuggestWidget.border': '#b9b5a8',
      'editorSuggestWidget.selectedBackground': '#e4edf2',
      'editorSuggestWidget.selectedForeground': '#24282b',
      'editorSuggestWidget.highlightForeground': '#17507a',
      'editorSuggestWidget.focusHighlightForeground': '#17507a',
      // The ink of the rules: it is seen, and no slab beside the text.
      'scrollbarSlider.background': '#8d887a66',
      'scrollbarSlider.hoverBackground': '#8d887aaa',
      'scrollbarSlider.activeBackground': '#8d887acc',
      focusBorder: '#17507a',
    },
  });
}
