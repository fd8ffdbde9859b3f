/** Front and back cover: what the guide is, for which machines, which issue; on the back the number again and where its safety pages stand. */
import type { BookBlock, Flow, Inline } from '../book.ts';
import { printedWords } from '../printed-words/index.ts';
import type { ComposeInput } from './scope.ts';

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

export function cover({ title, subtitle, id, revision, date, models }: CoverFacts, input: ComposeInput): Flow {
  const { house } = input.library.registers;
  const words = printedWords(house.language).book;
  const stamp = [id, revision === undefined ? '' : `${words.revision} ${revision}`, date ?? ''].filter((part) => part !== '');
  return [
    { kind: 'space', lines: 5 },
    line(house.publisher, 'eyebrow'),
    { kind: 'space', lines: 0.6 },
    line(title, 'title'),
    ...(subtitle === undefined ? [] : [{ kind: 'space', lines: 0.4 } as const, line(subtitle, 'subtitle')]),
    { kind: 'space', lines: 1.5 },
    { kind: 'rule' },
    line(stamp.join(' \u00b7 '), 'body'),
    ...(models.length === 0 ? [] : [line(models.join(', '), 'body')]),
    { kind: 'space', lines: 16 },
    line(words.cautions[0] as string, 'small'),
    line(words.cautions[4] as string, 'small'),
    ...(house.copyright === undefined ? [] : [line(house.copyright, 'small')]),
  ];
}

export function backCover({ title, id, revision, date }: CoverFacts, input: ComposeInput): Flow {
  const { house } = input.library.registers;
  const words = printedWords(house.language).book;
  const stamp = [id, revision === undefined ? '' : `${words.revision} ${revision}`, date ?? ''].filter((part) => part !== '');
  const before = printedWords(house.language).guide.backLine.replace('{cautions}', words.cautionsTitle);
  return [
    { kind: 'space', lines: 22 },
    { kind: 'rule' },
    line(house.publisher, 'eyebrow'),
    line(title, 'subtitle'),
    line(stamp.join(' \u00b7 '), 'body'),
    {
      kind: 'paragraph',
      inline: [...text(`${before} `), { kind: 'link', text: '', anchor: 'cautions', page: true, bare: true }, ...text('.')],
    },
    ...house.assistance.map((one) => line(one, 'small')),
    ...(house.copyright === undefined ? [] : [line(house.copyright, 'small')]),
  ];
}
