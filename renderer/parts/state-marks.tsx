/** The state of a document as small marks told apart by their shape, each with its words: the verdict of the proof, signature, open remarks. */
import type { ReactNode } from 'react';
import { words } from '../words/words.ts';
import type { DocumentLine } from '../worker/queries/queries.ts';

/** Drawn 12 by 12 with the ink of the words. The verdict is a seal, the signature a line to sign on, the remark the caret of a proofreader. */
const SHAPES = {
  proved: <circle cx="6" cy="6" r="4.6" fill="currentColor" />,
  'proved but': (
    <>
      <circle cx="6" cy="6" r="4.6" fill="none" />
      <rect x="4" y="4" width="4" height="4" fill="currentColor" stroke="none" />
    </>
  ),
  'not proved': (
    <>
      <circle cx="6" cy="6" r="4" fill="none" />
      <path d="M6 2A4 4 0 0 1 6 10Z" fill="currentColor" stroke="none" />
    </>
  ),
  refuted: (
    <>
      <circle cx="6" cy="6" r="4.6" fill="none" />
      <path d="M3 3L9 9M9 3L3 9" strokeWidth="1.8" />
    </>
  ),
  none: <path d="M1 10.5H11" />,
  fresh: <path d="M1 10.5H11M1.5 7.5C3 1.5 5 1.5 4.5 5.5S7 8.5 7.5 5.5S9.5 4.5 10.5 6.5" fill="none" strokeWidth="1.4" />,
  stale: <path d="M1 10.5H11M3.5 2L8.5 7.5M8.5 2L3.5 7.5" fill="none" strokeWidth="1.4" />,
  remark: <path d="M2 10L6 3L10 10" fill="none" strokeWidth="1.6" />,
  unread: <path d="M1.5 1.5H10.5V10.5H1.5ZM4 4L8 8M8 4L4 8" fill="none" strokeWidth="1.2" strokeDasharray="2 1" />,
} as const;

export type MarkName = keyof typeof SHAPES;

export const Mark = ({ name }: { readonly name: MarkName }): ReactNode => (
  <svg
    className={`mark-of mark-${name.replace(' ', '-')}`}
    width="12"
    height="12"
    viewBox="0 0 12 12"
    stroke="currentColor"
    aria-hidden="true"
  >
    {SHAPES[name]}
  </svg>
);

export interface Said {
  readonly mark?: MarkName;
  readonly words: string;
}

/** A verdict in its words and its mark. Beside errors "proved" would be read as if all were well. */
export function verdictSaid(verdict: NonNullable<DocumentLine['verdict']>, errors: number): Required<Said> {
  return verdict === 'proved' && errors > 0
    ? { mark: 'proved but', words: words.provedBut(errors) }
    : { mark: verdict, words: words[verdict] };
}

/** What the marks of a line mean, in their order. What is not known yet has no mark. */
export function stateSaid(
  { verdict, signature, openRemarks, unread }: Pick<DocumentLine, 'verdict' | 'signature' | 'openRemarks' | 'unread'>,
  errors: number,
): readonly Said[] {
  return [
    ...(unread ? [{ mark: 'unread' as const, words: words.headUnread }] : []),
    ...(verdict === undefined ? [] : [verdictSaid(verdict, errors)]),
    signature === undefined ? { words: words.signatureSought } : { mark: signature, words: words.signatureSaid[signature] },
    ...(openRemarks === undefined || openRemarks === 0 ? [] : [{ mark: 'remark' as const, words: words.openRemarks(openRemarks) }]),
  ];
}
