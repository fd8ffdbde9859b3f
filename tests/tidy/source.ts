/** The repository as the tidy tests see it: tracked files, and the syntax tree of each TypeScript file with what it imports. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseSync } from 'vite';

export const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** Tracked files and those about to be, with forward slashes, sorted. Without git (a downloaded archive): all but what is built. */
export function repositoryFiles(): readonly string[] {
  let listed: string[];
  try {
    const args = ['ls-files', '--cached', '--others', '--exclude-standard', '-z'];
    listed = execFileSync('git', args, { cwd: root, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).split('\0');
  } catch {
    listed = walk('');
  }
  return listed.filter((path) => path !== '' && existsSync(join(root, path))).sort();
}

const BUILT = new Set(['node_modules', 'dist', 'out', 'coverage', '.git', 'generated']);

function walk(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    if (BUILT.has(entry.name)) return [];
    const path = posix.join(folder, entry.name);
    return entry.isDirectory() ? walk(path) : [path];
  });
}

export const readText = (path: string): string => readFileSync(join(root, path), 'utf8');

/** A node of the syntax tree, as far as the tidy tests look. */
export interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

export interface SourceFile {
  readonly path: string;
  readonly text: string;
  readonly body: readonly Node[];
  readonly imports: readonly Import[];
}

export interface Import {
  readonly written: string;
  /** Path in the repository, or the package's name, or "node:...". */
  readonly to: string;
  readonly line: number;
}

export function readSource(path: string, text = readText(path)): SourceFile {
  const { program, errors } = parseSync(path, text, { sourceType: 'module' });
  const first = errors[0];
  if (first) throw new Error(`${path} cannot be parsed: ${first.message}`);
  const body = (program as unknown as { body: Node[] }).body;
  const imports: Import[] = [];
  for (const statement of body)
    visit(statement, (node) => {
      const source = importSource(node);
      if (source !== undefined) imports.push({ written: source, to: resolveImport(path, source), line: lineAt(text, node.start) });
    });
  return { path, text, body, imports };
}

function importSource(node: Node): string | undefined {
  if (!/^(Import|Export|TSImportType|TSExternalModuleReference)/.test(node.type)) return undefined;
  const source = (node.source ?? node.argument ?? node.expression) as Node | undefined;
  return source?.type === 'Literal' && typeof source.value === 'string' ? source.value : undefined;
}

function resolveImport(from: string, source: string): string {
  if (source.startsWith('.')) return posix.join(posix.dirname(from), source);
  if (source.startsWith('node:')) return source;
  return source
    .split('/')
    .slice(0, source.startsWith('@') ? 2 : 1)
    .join('/');
}

/** Every node once, parents first. */
export function visit(node: Node, see: (node: Node, parent?: Node) => void, parent?: Node): void {
  see(node, parent);
  for (const value of Object.values(node)) {
    if (Array.isArray(value)) {
      for (const item of value) if (isNode(item)) visit(item, see, node);
    } else if (isNode(value)) visit(value, see, node);
  }
}

function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';
}

export function lineAt(text: string, offset: number): number {
  let line = 1;
  for (let i = 0; i < offset; i += 1) if (text.charCodeAt(i) === 10) line += 1;
  return line;
}

export const isTypeScript = (path: string): boolean => /\.tsx?$/.test(path);

const parsed = new Map<string, SourceFile>();

/** All TypeScript files, each parsed once a run. */
export function sourceFiles(): readonly SourceFile[] {
  return repositoryFiles()
    .filter(isTypeScript)
    .map((path) => {
      const known = parsed.get(path) ?? readSource(path);
      parsed.set(path, known);
      return known;
    });
}
