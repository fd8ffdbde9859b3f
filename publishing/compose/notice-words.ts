/** The words of a notice as one run, printed as the guide prints them: second values in round brackets, references as words. */
import type { Block, Notice } from '../../procedures-schema/index.ts';
import { inlineOf, plainOf } from './inline.ts';
import type { Scope } from './scope.ts';

export function noticeWords(notice: Notice, scope: Scope): string {
  return blocksWords(notice.blocks, scope);
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
