/** What speaks against another name of a model's attribute: it must be read in formulas as the old one was, and stand for one thing. */
import type { LibraryFacts } from '../checks/index.ts';
import { foldText } from '../format/index.ts';
import { HELPERS, sameAttribute, UNITS } from '../quantities/index.ts';
import { familiesOf } from '../registers/index.ts';
import type { Named } from './model.ts';
import { attributesIn, isModelField } from './places-attribute.ts';

type Attribute = Extract<Named, { kind: 'attribute' }>;

const WORDS = /^\p{L}[\p{L}\p{N}-]*(?: \p{L}[\p{L}\p{N}-]*)*$/u;

export function unfitAttribute(to: string): string | undefined {
  if (!WORDS.test(to) || !/\p{L}{2}/u.test(to))
    return 'A formula reads an attribute as words of letters, digits and hyphens, each of which begins with a letter.';
  if (isModelField(foldText(to))) return `"${to}" is a field that a model has anyway.`;
  if (UNITS.some((unit) => foldText(unit.symbol) === foldText(to))) return `"${to}" would be read as a unit.`;
  const helper = Object.keys(HELPERS).find((name) => sameAttribute(name, to));
  return helper === undefined ? undefined : `"${helper}" is what formulas work out by that name.`;
}

export function attributeClash(named: Attribute, to: string, { registers, procedures }: LibraryFacts): string | undefined {
  const mine = (name: string): boolean => foldText(name) === foldText(named.name);
  const other = Object.keys(attributesIn(named.family, registers)).find((name) => !mine(name) && sameAttribute(name, to));
  if (other !== undefined) return `Models of the ${named.family} have the attribute ${other} already.`;
  // One formula stands for both families; renamed in one, it would be read on the other no more.
  for (const facts of procedures) {
    const families = familiesOf(facts.head, registers).map(({ name }) => name);
    if (!families.includes(named.family)) continue;
    const second = families.find((name) => name !== named.family && Object.keys(attributesIn(name, registers)).some(mine));
    if (second !== undefined)
      return `${facts.head.id} is for the ${named.family} and the ${second}, which both have the attribute ${named.name}. Its formulas could not say which of them is meant.`;
  }
  return undefined;
}
