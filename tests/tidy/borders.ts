/**
 * Who may import whom, as a table; each border has a sentence for whoever crosses it. The test beside it walks the imports.
 * Written here because the usual import checker cannot read TypeScript without the older compiler's programming interface.
 */
import { posix } from 'node:path';
import type { SourceFile } from './source.ts';

export interface Breach {
  readonly file: string;
  readonly line: number;
  readonly to: string;
  readonly sentence: string;
}

interface Border {
  /** Files on this side of the border ... */
  readonly from: RegExp;
  readonly except?: RegExp;
  /** ... may not import what matches. */
  readonly to: RegExp;
  readonly but?: RegExp;
  readonly sentence: string;
}

/** The folders of the core from the ground up: a folder may use those before it. */
const LAYERS: readonly (readonly string[])[] = [
  ['finding', 'invariant', 'paper-size', 'recent'],
  ['format', 'schemas', 'figures'],
  ['registers', 'quantities'],
  ['reading', 'numbering'],
  ['flow'],
  ['checks'],
  ['assist', 'narration', 'review'],
];
/** `quantities` reads what registers hold as text, `numbering` uses what `reading` found, `review` looks at the margin: the orders inside a layer. */
const BESIDE: readonly (readonly [string, string])[] = [
  ['quantities', 'registers'],
  ['numbering', 'reading'],
  ['review', 'assist'],
];

export const BORDERS: readonly Border[] = [
  {
    from: /^procedures-schema\//,
    to: /^(publishing|cli|electron|renderer|tests|sample-procedures)\//,
    sentence: 'The core imports nothing of ours, so that it runs in a worker, a browser and Node alike.',
  },
  {
    from: /^publishing\//,
    to: /^(cli|electron|renderer|tests)\//,
    sentence: 'Publishing knows the core only: the same bytes must come out of a terminal, the app and a test.',
  },
  {
    from: /^(procedures-schema|publishing)\//,
    to: /^(node:.*|fs|path|os|crypto|electron|react|react-dom)$/,
    sentence: 'Core and publishing do no input or output and know no host; give them text or bytes.',
  },
  {
    from: /^renderer\//,
    // Read by the builder, never by the page.
    except: /^renderer\/vite\.config\.ts$/,
    to: /^(electron\/(?!host\/contract\/)|cli\/|node:)/,
    sentence: 'The page reaches the host only through electron/host/contract, so that it also runs in a plain browser.',
  },
  {
    from: /^electron\/host\/contract\//,
    to: /^node:|^electron$/,
    sentence: 'The contract is a leaf table without Node, because the page imports it too.',
  },
  {
    from: /^electron\//,
    to: /^(renderer|cli|tests)\//,
    sentence: 'The shell serves the page; it does not import it.',
  },
  {
    from: /^cli\//,
    to: /^(renderer\/|tests\/|electron$|electron\/(?!host\/))/,
    sentence: 'The command line uses the core, publishing and electron/host, and opens no window.',
  },
  {
    from: /^(?!tests\/)/,
    except: /^vitest\.config\.ts$/,
    to: /^tests\//,
    sentence: 'Nobody imports tests: what both need belongs to the source.',
  },
  {
    from: /^tests\//,
    to: /\.test\.ts$/,
    sentence: "A test does not use another test's file; shared helpers stand in tests/support.",
  },
  {
    from: /^/,
    except: /^(procedures-schema\/format|tests)\//,
    to: /^(unified|remark-.*|mdast-.*|micromark.*|yaml|unist-.*|vfile.*)$/,
    sentence: 'Only format/ knows the Markdown and YAML parsers, so that they can be replaced in one place.',
  },
  {
    from: /^/,
    except: /^(publishing\/pdf|tests)\//,
    to: /^(pdf-lib|@cantoo\/pdf-lib)$/,
    sentence: 'Only publishing/pdf knows pdf-lib: layout works on numbers.',
  },
  {
    from: /^/,
    except: /^(renderer\/editor|tests\/(app|bench))\//,
    to: /^monaco-editor$/,
    sentence: 'Only renderer/editor knows the editor component.',
  },
  { from: /^/, except: /^(electron|tests\/app)\//, to: /^electron$/, sentence: 'Only electron/ knows Electron.' },
  {
    from: /^/,
    except: /^(electron|cli|tests)\/|^vitest\.config\.ts$/,
    to: /^node:/,
    sentence: 'Files, processes and the network belong to electron/ and cli/.',
  },
  {
    from: /^(cli)\//,
    except: /^cli\/(files|build\/.*)\.ts$/,
    to: /^node:fs/,
    sentence: 'In the command line only cli/files.ts writes, and reading goes through electron/host.',
  },
];

export function breaches(file: SourceFile): readonly Breach[] {
  const out: Breach[] = [];
  for (const { to, line } of file.imports) {
    for (const border of BORDERS)
      if (border.from.test(file.path) && !border.except?.test(file.path) && border.to.test(to) && !border.but?.test(to))
        out.push({ file: file.path, line, to, sentence: border.sentence });
    const inside = layerBreach(file.path, to) ?? doorBreach(file.path, to);
    if (inside) out.push({ file: file.path, line, to, sentence: inside });
  }
  return out;
}

function layerBreach(from: string, to: string): string | undefined {
  const here = coreFolder(from);
  const there = coreFolder(to);
  if (here === undefined || there === undefined || here === there) return undefined;
  const low = LAYERS.findIndex((layer) => layer.includes(here));
  const high = LAYERS.findIndex((layer) => layer.includes(there));
  if (low === -1) return undefined; // pipeline, engine and the like stand on top of all
  if (high === -1) return `${here}/ is below the pipeline and may not import it.`;
  if (high < low) return undefined;
  if (high === low && BESIDE.some(([a, b]) => a === here && b === there)) return undefined;
  return `Inside the core imports go downwards: ${LAYERS.map((layer) => layer.join(', ')).join(' <- ')}; ${here}/ may not import ${there}/.`;
}

/** The folder of the core that a path lies in; files at its top count by their own name. */
function coreFolder(path: string): string | undefined {
  const match = /^procedures-schema\/([^/.]+)/.exec(path);
  return match?.[1];
}

/** Contracts of plain types may be imported past the door: they are the border themselves. */
const OPEN = /\/(model|tree|action|check|book|finding|invariant)\.ts$/;

function doorBreach(from: string, to: string): string | undefined {
  if (!/\.tsx?$/.test(to) || to.endsWith('/index.ts') || OPEN.test(to)) return undefined;
  const folder = posix.dirname(to);
  if (!/^(procedures-schema|publishing|electron\/host)\/./.test(folder)) return undefined;
  if (from.startsWith('tests/') || from.startsWith(`${folder}/`) || posix.dirname(from) === folder) return undefined;
  // A folder's own subfolders and their parent belong together.
  if (folder.startsWith(`${posix.dirname(from)}/`) && posix.dirname(from).split('/').length > 1) return undefined;
  return `Another folder is entered only by its index.ts, so that its inside can change freely.`;
}

/**
 * Circles of imports that leave a folder, each named once from its first file in order. Inside one folder they are left alone, because
 * blocks hold blocks, and the files that treat them call each other.
 */
export function circles(files: readonly SourceFile[]): readonly string[] {
  const next = new Map(files.map((file) => [file.path, file.imports.map(({ to }) => to)]));
  const out = new Set<string>();
  const done = new Set<string>();
  const trail: string[] = [];
  const walk = (path: string): void => {
    const at = trail.indexOf(path);
    if (at !== -1) {
      const ring = trail.slice(at);
      const first = ring.indexOf([...ring].sort()[0] ?? path);
      if (new Set(ring.map((file) => posix.dirname(file))).size > 1) out.add([...ring.slice(first), ...ring.slice(0, first)].join(' -> '));
      return;
    }
    if (done.has(path)) return;
    trail.push(path);
    for (const to of next.get(path) ?? []) if (next.has(to)) walk(to);
    trail.pop();
    done.add(path);
  };
  for (const path of [...next.keys()].sort()) walk(path);
  return [...out].sort();
}
