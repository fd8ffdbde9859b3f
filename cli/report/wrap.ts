/** Breaks text into lines for a terminal. Counts characters, not columns of wide scripts: a line may then run over, never get lost. */

/** A control character of a file would be obeyed by the terminal. */
export const shown = (text: string): string => text.replace(/[^\P{Cc}\n]/gu, '\uFFFD');

export function wrap(text: string, width: number, indent = ''): readonly string[] {
  return shown(text)
    .split('\n')
    .flatMap((paragraph) => {
      const lines: string[] = [];
      let line = '';
      for (const word of paragraph.split(' ')) {
        if (line !== '' && indent.length + line.length + 1 + word.length > width) {
          lines.push(indent + line);
          line = word;
        } else line = line === '' ? word : `${line} ${word}`;
      }
      lines.push(line === '' ? '' : indent + line);
      return lines;
    });
}

/** A labelled stretch: the label once, the text beside it. */
export function labelled(label: string, text: string, width: number, column: number): readonly string[] {
  const indent = ' '.repeat(column);
  const [first = '', ...rest] = wrap(text, width, indent);
  // A label as wide as its column still stands apart from the words.
  return [`${`  ${label}`.padEnd(column - 1)} ${first.slice(column)}`, ...rest];
}
