/**
 * Compiles the JSON Schemas of library files to a module of plain functions, so that nothing is compiled at run time: the app's
 * content policy forbids it. Run by set-up, and by `npm run build:schemas`. Writes schemas/generated/, which is never committed.
 */
import { mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Ajv2020 from 'ajv/dist/2020.js';
import standaloneCode from 'ajv/dist/standalone/index.js';
import { build } from 'esbuild';

const folder = join(dirname(dirname(dirname(fileURLToPath(import.meta.url)))), 'procedures-schema', 'schemas');
const target = join(folder, 'generated');
const ENDING = '.schema.json';

const names = readdirSync(folder)
  .filter((file) => file.endsWith(ENDING))
  .map((file) => file.slice(0, -ENDING.length))
  .sort();
const ajv = new (Ajv2020.default ?? Ajv2020)({
  allErrors: true,
  strict: true,
  // The conditions name fields that only their branches describe.
  strictRequired: false,
  allowUnionTypes: true,
  ownProperties: true,
  messages: false,
  code: { source: true, esm: true, lines: true },
});
const ids = {};
for (const name of names) {
  const schema = JSON.parse(readFileSync(join(folder, `${name}${ENDING}`), 'utf8'));
  ajv.addSchema(schema);
  ids[name] = schema.$id;
}
const source = (standaloneCode.default ?? standaloneCode)(ajv, ids);
// The compiled code asks for a helper of the package by require; bundled, it asks for nothing.
const bundled = await build({
  stdin: { contents: source, resolveDir: folder, sourcefile: 'validators.mjs' },
  bundle: true,
  minify: true,
  format: 'esm',
  target: 'es2022',
  write: false,
  logLevel: 'error',
});
const code = bundled.outputFiles[0].text;
const late = /(?<!["'\w])(?:require|import)\s*\(|^import\s|\bnew Function\(|\beval\(/m.exec(code);
if (late) throw new Error(`the compiled schemas would load or compile code at run time: ${code.slice(late.index, late.index + 60)}`);

const types = `import type { Validate } from '../validate.ts';\n${names.map((name) => `export const ${name}: Validate;`).join('\n')}\n`;
mkdirSync(target, { recursive: true });
put('validators.mjs', code);
put('validators.d.mts', types);

/** Written beside and moved into place, so that nobody reads half a file. */
function put(file, text) {
  const fresh = join(target, `${file}.${process.pid}.part`);
  writeFileSync(fresh, text);
  renameSync(fresh, join(target, file));
}
