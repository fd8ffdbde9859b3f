/** How long it stands what the page says was done: until it was read and somebody types on, and not beside text that makes it untrue. */
import { expect, test } from 'vitest';
import { isRead } from '../../../renderer/state/read-by-now.ts';

const SENTENCES = 'Say when the machine needs this, how long it takes, and who may do it. '.repeat(5);

test.each([
  ['a key at once takes nothing away', { text: 'Saved.', wrong: false }, 1000, false],
  ['a key after it was read does', { text: 'Saved.', wrong: false }, 5000, true],
  ['what takes long to read stands longer', { text: SENTENCES, wrong: false }, 5000, false],
  ['and not for ever', { text: SENTENCES, wrong: false }, 60_000, true],
  ['what went wrong stands', { text: 'The disk is full.', wrong: true }, 600_000, false],
  ['what is left to do stands', { text: SENTENCES, wrong: false, stays: true }, 600_000, false],
  ['what is offered stands', { text: 'It stays in the library.', wrong: false, offer: {} }, 600_000, false],
])('%s', (_, line, since, read) => {
  expect(isRead(line, since)).toBe(read);
});
