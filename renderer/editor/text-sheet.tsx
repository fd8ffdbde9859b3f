/**
 * The text of one file on the sheet, with what stands beside its lines: label and energy band left of it, notes right of it. Places them;
 * what they say comes from outside.
 */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import { shownKeys } from '../actions/shown-keys.ts';
import { useNarrow } from '../parts/room.ts';
import { holdText } from '../state/focus.ts';
import { shown } from '../state/shown.ts';
import { measures, textSize } from '../state/text-size.ts';
import { change, documents, onOutsideEdit } from '../state/workspace.ts';
import { words } from '../words/words.ts';
import { markFound } from './found-marks.ts';
import { comeBack, leave, wasIn } from './left-at.ts';
import { modelOf, type monaco, pathOf, prepareEditor } from './monaco.ts';
import { markSpelling } from './spelling-marks.ts';

/** Tops and bottoms of lines, in pixels from the top of the text. */
export interface LinePlaces {
  top(line: number): number;
  bottom(line: number): number;
  readonly height: number;
}

interface Props {
  readonly file: string;
  readonly label: string;
  readonly left: (places: LinePlaces) => ReactNode;
  readonly right: (places: LinePlaces) => ReactNode;
  /** Files were dropped; the caret stands where. */
  readonly onDropped: (files: readonly File[]) => void;
}

const NOWHERE: LinePlaces = { top: () => 0, bottom: () => 0, height: 0 };

const letters = (percent: number) => ({ fontSize: measures(percent).letter, lineHeight: measures(percent).line });

export function TextSheet({ file, label, left, right, onDropped }: Props): ReactNode {
  const host = useRef<HTMLDivElement>(null);
  const editor = useRef<monaco.editor.IStandaloneCodeEditor>(undefined);
  /** Set while the text is changed from outside, so that it is not taken for typing. */
  const ours = useRef(false);
  const sides = useRef<(HTMLDivElement | null)[]>([]);
  /** The text that somebody was shown into. */
  const entered = useRef<string>(undefined);
  const [places, setPlaces] = useState<LinePlaces>(NOWHERE);
  const { goTo } = shown.usePick('goTo');
  const column = useNarrow('column');
  const { percent } = textSize.use();

  useEffect(() => {
    const api = prepareEditor();
    const made = api.editor.create(host.current as HTMLDivElement, {
      theme: 'proof',
      model: null,
      fontFamily: "'print-regular', 'Source Sans 3', 'Segoe UI', sans-serif",
      ...letters(textSize.get().percent),
      lineNumbers: 'off',
      lineDecorationsWidth: 0,
      lineNumbersMinChars: 0,
      glyphMargin: false,
      folding: false,
      minimap: { enabled: false },
      wordWrap: 'on',
      wrappingStrategy: 'advanced',
      wrappingIndent: 'indent',
      renderLineHighlight: 'none',
      guides: { indentation: false },
      bracketPairColorization: { enabled: false },
      occurrencesHighlight: 'off',
      selectionHighlight: false,
      overviewRulerLanes: 0,
      hideCursorInOverviewRuler: true,
      overviewRulerBorder: false,
      scrollBeyondLastLine: false,
      quickSuggestions: false,
      wordBasedSuggestions: 'off',
      suggest: { showIcons: false, showStatusBar: false },
      hover: { delay: 500 },
      links: false,
      contextmenu: false,
      unicodeHighlight: { nonBasicASCII: false, ambiguousCharacters: false, invisibleCharacters: false },
      padding: { top: 20, bottom: 160 },
      // At its end the wheel goes on with the page around it.
      scrollbar: { verticalScrollbarSize: 10, horizontal: 'hidden', useShadows: false, alwaysConsumeMouseWheel: false },
      automaticLayout: true,
      fixedOverflowWidgets: true,
      tabSize: 2,
    });
    editor.current = made;
    const letGo = holdText({
      focus: () => made.focus(),
      put: (text) => made.trigger('menu', 'paste', { text }),
      cut: () => made.trigger('menu', 'cut', undefined),
      markAll: () => {
        const model = made.getModel();
        if (model) made.setSelection(model.getFullModelRange());
      },
      showHover: () => {
        made.focus();
        made.trigger('keys', 'editor.action.showHover', undefined);
      },
      scrollOn: (by) => {
        const line = made.getPosition()?.lineNumber ?? 1;
        made.setScrollTop(Math.min(made.getScrollTop() + by, made.getTopForLineNumber(line)));
      },
      marked: () => {
        const [model, range] = [made.getModel(), made.getSelection()];
        if (!model || !range) return { text: '', start: 0 };
        return { text: model.getValueInRange(range), start: model.getOffsetAt(range.getStartPosition()) };
      },
    });
    const measure = (): void => {
      const count = made.getModel()?.getLineCount() ?? 0;
      const within = (line: number): number => Math.max(1, Math.min(count, line));
      setPlaces({
        top: (line) => made.getTopForLineNumber(within(line)),
        bottom: (line) => made.getBottomForLineNumber(within(line)),
        height: Math.max(0, made.getContentHeight()),
      });
    };
    const follow = (): void => {
      for (const side of sides.current) if (side) side.style.transform = `translateY(${-made.getScrollTop()}px)`;
    };
    // Undo goes through the journal of all files, not through the editor's own list.
    const listeners = [
      made.onDidScrollChange(follow),
      made.onDidContentSizeChange(measure),
      made.onDidLayoutChange(measure),
      made.onDidChangeModel(() => {
        measure();
        follow();
      }),
      made.onDidChangeCursorPosition(({ position }) => {
        const model = made.getModel();
        if (model && pathOf(model) === shown.get().file) shown.set({ caret: model.getOffsetAt(position) });
      }),
      made.onDidChangeModelContent((event) => {
        const model = made.getModel();
        if (!model || ours.current) return;
        const path = pathOf(model);
        if (!documents.get(path)) return;
        const edits = event.changes.map(({ rangeOffset, rangeLength, text }) => ({
          start: rangeOffset,
          end: rangeOffset + rangeLength,
          text,
        }));
        change(words.typing, [{ path, edits }], true);
        // Within a line that stays as high as it was, nothing moves; what stands beside the text need not be drawn again for such a key.
        const moves = event.changes.some(({ range, text }) => text.includes('\n') || range.startLineNumber !== range.endLineNumber);
        // A file with two kinds of line ends is evened out by the editor: then its whole text is what it has now.
        const [whole, own] = [documents.get(path)?.text ?? '', model.getValue()];
        if (whole !== own) change(words.evenLineEnds, [{ path, edits: [{ start: 0, end: whole.length, text: own }] }], true);
        if (moves || event.changes.length > 1) measure();
      }),
    ];
    const stop = onOutsideEdit((applied) => {
      for (const { path, edits } of applied) {
        if (!documents.get(path)) continue;
        const model = modelOf(path);
        const wanted = documents.get(path)?.text ?? '';
        if (model.getValue() === wanted) continue;
        ours.current = true;
        model.applyEdits(
          [...edits].map(({ start, end, text }) => ({
            range: api.Range.fromPositions(model.getPositionAt(start), model.getPositionAt(end)),
            text,
            forceMoveMarkers: true,
          })),
        );
        if (model.getValue() !== wanted) model.setValue(wanted);
        ours.current = false;
      }
      measure();
    });
    const stopFound = markFound(made);
    const spelling = markSpelling(made);
    // Asked again whenever a check is done; the pause in it keeps it behind typing.
    const stopSpelling = shown.listen(() => spelling.again(), 'revision', 'file');
    return () => {
      letGo();
      stopFound();
      stopSpelling();
      spelling.stop();
      stop();
      for (const listener of listeners) listener.dispose();
      const last = made.getModel();
      if (last) leave(made, pathOf(last));
      made.dispose();
    };
  }, []);

  useEffect(() => {
    const made = editor.current;
    if (!made) return;
    const model = modelOf(file);
    const wanted = documents.get(file)?.text ?? '';
    if (model.getValue() !== wanted) {
      ours.current = true;
      model.setValue(wanted);
      ours.current = false;
    }
    const last = made.getModel();
    if (last) leave(made, pathOf(last));
    made.setModel(model);
    comeBack(made, file);
    shown.set({ caret: model.getOffsetAt(made.getPosition() ?? { lineNumber: 1, column: 1 }) });
    // Who comes from another view goes on typing; who was in a field or a sheet stays there.
    if (document.activeElement === document.body || document.activeElement?.closest('.views')) made.focus();
  }, [file]);

  useEffect(() => editor.current?.updateOptions({ ariaLabel: `${label}. ${words.textHow(shownKeys('F6'))}` }), [label]);
  useEffect(() => editor.current?.updateOptions(letters(percent)), [percent]);

  // The file must be shown before the caret is put into it: this order of effects is what does it.
  useEffect(() => {
    const model = editor.current?.getModel();
    if (!goTo || !model || !editor.current) return;
    // A jump is made once: made again by whoever comes back later, it would take the caret from where they wrote.
    shown.set({ goTo: undefined });
    if (goTo.first && (wasIn(file) || entered.current === file)) return editor.current.focus();
    entered.current = file;
    const [start, end] = [model.getPositionAt(goTo.offset), model.getPositionAt(goTo.end)];
    editor.current.setSelection({
      startLineNumber: start.lineNumber,
      startColumn: start.column,
      endLineNumber: end.lineNumber,
      endColumn: end.column,
    });
    if (goTo.stay) return editor.current.revealLineInCenterIfOutsideViewport(start.lineNumber);
    editor.current.revealLineNearTop(start.lineNumber);
    editor.current.focus();
  }, [goTo, file]);

  return (
    <div className={file.endsWith('.md') ? 'sheet' : 'sheet sheet-entries'}>
      <div className="sheet-side sheet-left">
        <div
          ref={(element) => {
            sides.current[0] = element;
          }}
        >
          {left(places)}
        </div>
      </div>
      <div
        className="sheet-text"
        ref={host}
        onDragOverCapture={(event) => {
          if (event.dataTransfer.types.includes('Files')) event.preventDefault();
        }}
        onDropCapture={(event) => {
          const files = [...event.dataTransfer.files];
          if (files.length === 0) return;
          event.preventDefault();
          event.stopPropagation();
          const at = editor.current?.getTargetAtClientPoint(event.clientX, event.clientY)?.position;
          if (at) editor.current?.setPosition(at);
          onDropped(files);
        }}
      />
      {/* In one column the notes are a list that is scrolled by itself, from the keyboard too. */}
      <section className="sheet-side sheet-right" aria-label={words.notesBeside} {...(column ? { tabIndex: 0 } : {})}>
        <div
          ref={(element) => {
            sides.current[1] = element;
          }}
        >
          {right(places)}
        </div>
      </section>
    </div>
  );
}
