/** The words of a notice as one run, for checks and short forms. */
import type { Block, Notice } from '../format/index.ts';

export function noticeText(notice: Notice): string {
  return blocksText(notice.blocks);
}

function blocksText(blocks: readonly Block[]): string {
  const parts: string[] = [];
  for (const block of blocks) {
    if (block.kind === 'paragraph') parts.push(block.prose.text);
    else if (block.kind === 'bullets') for (const item of block.items) parts.push(item.prose.text, blocksText(item.blocks));
    else if (block.kind === 'steps') for (const step of block.steps) parts.push(step.lead.text);
    else if (block.kind === 'notice') parts.push(blocksText(block.blocks));
  }
  return parts.filter((part) => part !== '').join(' ');
}
