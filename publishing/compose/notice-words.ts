/** The words of a notice as one run, printed as the guide prints them: second values in round brackets, references as words. */
import type { Block, Notice } from '../../procedures-schema/index.ts';
import { inlineOf, plainOf } from './inline.ts';
import type { ComposeInput, Scope } from './scope.ts';

export function noticeWords(notice: Notice, scope: Scope): string {
  return blocksWords(notice.blocks, scope);
}

/** Of a notice that stands in the register and is used again and again. */
export function standingText({ attributes }: Notice, input: ComposeInput): string | undefined {
  const use = attributes?.entries.find((entry) => entry.key === 'use')?.value;
  return use === undefined ? undefined : input.library.registers.notices.find((one) => one.name === use)?.text;
}

export const saidBy = (notice: Notice, scope: Scope): string => noticeWords(notice, scope) || (standingText(notice, scope.input) ?? '');

/** Its first sentence: what happens, before what is done against it. */
export function hazardOf(said: string): string {
  // A full stop inside "max. 3 bar" has no capital after it.
  return /^.*?[.!?](?=\s+\p{Lu})/su.exec(said)?.[0] ?? said;
}

function blocksWords(blocks: readonly Block[], scope: Scope): string {
  const parts = blocks.flatMap((block): string[] => {
    switch (block.kind) {
      case 'paragraph':
        return [plainOf(inlineOf(block.prose, scope))];
      case 'bullets':
        return block.items.flatMap((item) => [plainOf(inlineOf(item.prose, scope)), blocksWords(item.blocks, scope)]);
      case 'steps':
        return block.steps.map((step) => plainOf(inlineOf(step.lead, scope)));
      case 'notice':
        return [blocksWords(block.blocks, scope)];
      default:
        return [];
    }
  });
  return parts.filter((part) => part !== '').join(' ');
}
