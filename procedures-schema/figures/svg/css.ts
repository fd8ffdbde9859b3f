/** The little of a style sheet that drawing programs write: rules by element, class and id. Says which declarations are for an element. */
import type { XmlNode } from './xml.ts';

interface Rule {
  readonly name: string | undefined;
  readonly id: string | undefined;
  readonly classes: readonly string[];
  readonly weight: number;
  readonly says: string;
}

const selector = /^(\*|[a-z][\w-]*)?((?:[.#][\w-]+)*)$/i;

/** Declarations for an element as one text, what weighs more later. Selectors that look at neighbours or states are passed over. */
export function styleRules(sheet: string): (node: XmlNode) => string {
  const rules: Rule[] = [];
  for (const [, before = '', says = ''] of sheet.replace(/\/\*[\s\S]*?\*\//g, '').matchAll(/([^{}]+)\{([^{}]*)\}/g))
    for (const one of before.split(',')) {
      const found = selector.exec(one.trim());
      if (found === null || one.trim() === '') continue;
      const marks = (found[2] ?? '').match(/[.#][\w-]+/g) ?? [];
      const classes = marks.filter((mark) => mark.startsWith('.')).map((mark) => mark.slice(1));
      const id = marks.find((mark) => mark.startsWith('#'))?.slice(1);
      const name = found[1] === undefined || found[1] === '*' ? undefined : found[1];
      const weight = (id === undefined ? 0 : 100) + classes.length * 10 + (name === undefined ? 0 : 1);
      rules.push({ name, id, classes, weight, says: says.trim().replace(/\s*!important/g, '') });
    }
  if (rules.length === 0) return () => '';
  // Sorting keeps the order of equals: the later of two wins.
  const sorted = rules.sort((a, b) => a.weight - b.weight);
  return (node) => {
    const own = new Set((node.attributes.class ?? '').split(/\s+/));
    return sorted
      .filter(
        ({ name, id, classes }) =>
          (name === undefined || name === node.name) &&
          (id === undefined || id === node.attributes.id) &&
          classes.every((one) => own.has(one)),
      )
      .map(({ says }) => says)
      .join(';');
  };
}
