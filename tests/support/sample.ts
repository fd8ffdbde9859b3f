/** The sample library, read and checked once a test file, and what publishing makes of it. */
import { readFigure, readFonts, readLibrary } from '../../electron/host/files/index.ts';
import { checkLibrary, figureFacts, type LibraryReport } from '../../procedures-schema/index.ts';
import type { ComposeInput, FontFiles, Image } from '../../publishing/index.ts';

export const SAMPLE = 'sample-procedures';

export interface Sample {
  readonly report: LibraryReport;
  readonly input: ComposeInput;
  readonly fonts: FontFiles;
  readonly texts: readonly { readonly path: string; readonly text: string }[];
  readonly paths: readonly string[];
}

let known: Promise<Sample> | undefined;

export function sample(): Promise<Sample> {
  known ??= load();
  return known;
}

async function load(): Promise<Sample> {
  const disk = await readLibrary(SAMPLE);
  const figures = new Map<string, Image>();
  for (const path of disk.paths) {
    const bytes = path.endsWith('.svg') ? await readFigure(disk.root, path) : undefined;
    if (bytes !== undefined) figures.set(path, { kind: 'svg', source: new TextDecoder().decode(bytes) });
  }
  const facts = new Map([...figures].flatMap(([path, file]) => (file.kind === 'missing' ? [] : [[path, figureFacts(file)] as const])));
  const report = checkLibrary(disk.texts, disk.paths, { figures: facts });
  return {
    report,
    input: { library: report.facts, figures, draft: false },
    fonts: await readFonts(),
    texts: disk.texts,
    paths: disk.paths,
  };
}
