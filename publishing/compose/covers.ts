/** Front and back cover: what the guide is, for which machines, which issue; on the back the number again and where its safety pages stand. */
import type { BookBlock, Flow, Inline } from '../book.ts';
import type { ComposeInput } from './scope.ts';
import { wordsOf } from './spoken.ts';

export interface CoverFacts {
  readonly title: string;
  readonly subtitle?: string;
  readonly id: string;
  readonly revision?: string;
  readonly date?: string;
  readonly models: readonly string[];
}

const text = (said: string): Inline[] => [{ kind: 'text', text: said }];
const line = (said: string, style: 'title' | 'subtitle' | 'eyebrow' | 'small' | 'body'): BookBlock => ({
  kind: 'paragraph',
  style,
  inline: text(said),
});

/** By what the guide is told from others and from its own earlier issues. */
const stampLine = (parts: readonly string[]): BookBlock => ({
  kind: 'paragraph',
  inline: [{ kind: 'strong', text: parts.join(' \u00b7 ') }],
});

export function cover({ title, subtitle, id, revision, date, models }: CoverFacts, input: ComposeInput): Flow {
  const { house } = input.library.registers;
  const words = wordsOf(input).book;
  const stamp = [id, revision === undefined ? '' : `${words.revision} ${revision}`, date ?? ''].filter((part) => part !== '');
  return [
    line(house.publisher, 'subtitle'),
    { kind: 'space', lines: 8 },
    line(title, 'title'),
    ...(subtitle === undefined ? [] : [{ kind: 'space', lines: 0.4 } as const, line(subtitle, 'subtitle')]),
    { kind: 'space', lines: 1 },
    { kind: 'rule', strong: true },
    stampLine(stamp),
    ...(models.length === 0 ? [] : [line(`${words.glance.models} ${models.join(', ')}`, 'body')]),
    { kind: 'space', lines: 2, fill: true },
    { kind: 'rule' },
    line(words.cautions[0] as string, 'body'),
    line(words.cautions[4] as string, 'body'),
    ...(house.copyright === undefined ? [] : [line(house.copyright, 'small')]),
  ];
}

export function backCover({ title, id, revision, date }: CoverFacts, input: ComposeInput): Flow {
  const { house } = input.library.registers;
  const words = wordsOf(input).book;
  const stamp = [id, revision === undefined ? '' : `${words.revision} ${revision}`, date ?? ''].filter((part) => part !== '');
  const before = wordsOf(input).guide.backLine.replace('{cautions}', words.cautionsTitle);
  return [
    line(house.publisher, 'subtitle'),
    { kind: 'space', lines: 2, fill: true },
    line(title, 'subtitle'),
    { kind: 'rule', strong: true },
    stampLine(stamp),
    {
      kind: 'paragraph',
      inline: [...text(`${before} `), { kind: 'link', text: '', anchor: 'cautions', page: true, bare: true }, ...text('.')],
    },
    ...house.assistance.map((one) => line(one, 'body')),
    ...(house.copyright === undefined ? [] : [line(house.copyright, 'small')]),
  ];
}
