/** The sample library grown to any length: its procedures again and again under new numbers, each calling those of its own copy. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '../../cli/setup.mjs';

export interface LongFile {
  readonly path: string;
  readonly text: string;
}

/** Registers once, then `count` procedures. Numbers of copies have six digits and more, so that they meet no sample number. */
export function longLibrary(count: number): readonly LongFile[] {
  const folder = join(root, 'sample-procedures');
  const read = (path: string): LongFile => ({ path, text: readFileSync(join(folder, path), 'utf8') });
  const names = readdirSync(join(folder, 'procedures')).sort();
  const registers = [
    'library.yaml',
    ...readdirSync(join(folder, 'registers'))
      .sort()
      .map((name) => `registers/${name}`),
  ];
  const out = registers.map(read).map((file) =>
    // The house's pattern of four digits has no room for so many.
    file.path === 'library.yaml' ? { ...file, text: file.text.replace('{4}', '{4,9}') } : file,
  );
  for (let index = 0; index < count; index += 1) {
    const copy = Math.floor(index / names.length);
    const { path, text } = read(`procedures/${names[index % names.length]}`);
    const again = (own: string): string => (copy === 0 ? own : own.replace(/OM-([1-6]\d{3})\b/g, `OM-$1${String(copy).padStart(3, '0')}`));
    out.push({ path: again(path), text: again(text) });
  }
  return out;
}
