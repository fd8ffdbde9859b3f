/**
 * What core and publishing may not use, because it differs between machines, moments or languages: the same input must give the
 * same bytes everywhere. Looks at the syntax tree, so that words in comments and sentences do not count.
 */
import { lineAt, type Node, type SourceFile, visit } from './source.ts';

export interface Banned {
  readonly file: string;
  readonly line: number;
  readonly what: string;
  readonly because: string;
}

const LOCALE = 'its answer depends on the language data of the machine; compare code units, or use a table of ours';
const CLOCK = 'the date is an input';
const CHANCE = 'the same input must give the same bytes';
const HOST = 'core and publishing know no host';
const MATH = 'engines may differ in the last digit; use integers, exact rationals or a table';

/** Global names. */
const GLOBALS: Readonly<Record<string, string>> = {
  Intl: LOCALE,
  Date: CLOCK,
  performance: CLOCK,
  crypto: CHANCE,
  setTimeout: HOST,
  setInterval: HOST,
  Buffer: HOST,
  fetch: HOST,
  require: HOST,
  globalThis: HOST,
  eval: HOST,
};

/** Methods by name, on whatever they are called. */
const METHODS: Readonly<Record<string, string>> = { localeCompare: LOCALE };
const TO_LOCALE = /^toLocale/;

/** Members of Math that the language standard leaves to the engine. */
const INEXACT = /^(a?(sin|cos|tan)h?|atan2|pow|exp|expm1|log|log1p|log2|log10|cbrt|hypot)$/;

/** `process.env` and the like; `process` alone is an ordinary word. */
const PROCESS = /^(env|cwd|argv|exit|platform|stdout|stderr|versions|nextTick|hrtime)$/;

export function banned(file: SourceFile): readonly Banned[] {
  const out: Banned[] = [];
  const report = (node: Node, what: string, because: string): void => {
    out.push({ file: file.path, line: lineAt(file.text, node.start), what, because });
  };
  for (const statement of file.body)
    visit(statement, (node, parent) => {
      if (node.type === 'Identifier') {
        const name = node.name as string;
        if (Object.hasOwn(GLOBALS, name) && isUse(node, parent)) report(node, name, GLOBALS[name] as string);
      }
      if (node.type === 'MemberExpression' && node.computed !== true) {
        const object = (node.object as Node).name;
        const member = (node.property as Node).name as string;
        if (Object.hasOwn(METHODS, member)) report(node, `.${member}`, METHODS[member] as string);
        if (TO_LOCALE.test(member)) report(node, `.${member}`, LOCALE);
        if (object === 'Math' && INEXACT.test(member)) report(node, `Math.${member}`, MATH);
        if (object === 'Math' && member === 'random') report(node, 'Math.random', CHANCE);
        if (object === 'process' && PROCESS.test(member)) report(node, `process.${member}`, HOST);
      }
    });
  return out;
}

/** A use of a global, not the name of a property or of a key. */
function isUse(node: Node, parent: Node | undefined): boolean {
  if (!parent) return true;
  if (parent.type === 'MemberExpression') return parent.object === node || parent.computed === true;
  if (parent.type === 'Property' || parent.type === 'TSPropertySignature' || parent.type === 'PropertyDefinition')
    return parent.value === node;
  return true;
}
