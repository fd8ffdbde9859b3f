/** The files of the built page by the path that a browser asks for. Nothing else of the disk can be named. */
import { readFile } from 'node:fs/promises';
import path from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ttf': 'font/ttf',
  '.woff2': 'font/woff2',
};

export interface PageFile {
  readonly type: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** `asked`: "/" or "/assets/name.js", as it stands in the address, undecoded. */
export async function pageFile(folder: string, asked: string): Promise<PageFile | undefined> {
  const own = asked === '/' ? 'index.html' : asked.slice(1);
  const type = TYPES[path.extname(own)];
  // Names of built files only: no way up, no folders but one, nothing hidden.
  if (type === undefined || !/^(index\.html|assets\/\w[\w.-]*)$/.test(own)) return undefined;
  const bytes = await readFile(path.join(folder, ...own.split('/'))).catch(() => undefined);
  return bytes === undefined ? undefined : { type, bytes: new Uint8Array(bytes) };
}
