/** Names that no register knows, at the caret or of the whole text, with all that may be done about each. The keys come to them at once. */
import { type ReactNode, useEffect, useRef } from 'react';
import { focusFirstButton, listKeys } from '../parts/list-keys.ts';
import { OverSheet } from '../parts/over-sheet.tsx';
import { useAnswer } from '../state/answer.ts';
import { closePanel, panel } from '../state/panel.ts';
import { say, shown } from '../state/shown.ts';
import { words } from '../words/words.ts';
import { namesAt } from '../write/at-caret.ts';
import { ToSettle } from '../write/to-settle.tsx';

export function SettleSheet(): ReactNode {
  const { file, caret } = shown.usePick('file', 'caret');
  const { whole = false } = panel.use();
  const margin = useAnswer('margin', file === undefined ? undefined : { file });
  const list = useRef<HTMLDivElement>(null);
  const names = margin === undefined ? [] : whole ? margin.settle : namesAt(margin, caret);
  const count = margin === undefined ? undefined : names.length;
  /** What was settled is gone from the list, and the keys with it: they come to what is next. */
  useEffect(() => {
    if (count === undefined) return;
    if (count > 0) return focusFirstButton(list.current);
    closePanel();
    if (whole) say(words.allSettled);
  }, [count, whole]);
  return (
    <OverSheet title={whole ? words.namesToSettle : words.nameToSettle}>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the keys belong to the buttons inside */}
      <div ref={list} onKeyDown={listKeys}>
        {names.map((name) => (
          <ToSettle
            key={`${name.name} ${name.span.start}`}
            name={name}
            file={file ?? ''}
            whole
            {...(whole ? {} : { settled: closePanel })}
          />
        ))}
      </div>
    </OverSheet>
  );
}
