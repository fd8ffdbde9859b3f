/** What the host refuses in the languages of the page: none is missing, none leaves a value out, and the page tells it in its own. */
import { afterEach, describe, expect, test } from 'vitest';
import { inWords, Refused, refusalsInEnglish, type Said } from '../../../electron/host/contract/index.ts';
import { replyTo } from '../../../electron/host/service/reply.ts';
import { HostRefusal, refusedInWords, sayRefusalsIn } from '../../../renderer/refused.ts';
import { refusalsInGerman } from '../../../renderer/words/de-refusals.ts';

const NAMES = Object.keys(refusalsInEnglish) as (keyof typeof refusalsInEnglish)[];

afterEach(() => sayRefusalsIn(refusalsInEnglish));

describe('each refusal', () => {
  test.each(NAMES.filter((name) => name !== 'odd'))('%s is said in German, with all its values', (name) => {
    const [english, german] = [refusalsInEnglish, refusalsInGerman].map((all) => all[name] as (...values: string[]) => string);
    const values = Array.from({ length: english?.length ?? 0 }, (_, index) => `value${index}`);
    expect(german?.(...values)).not.toBe(english?.(...values));
    for (const value of values) for (const say of [english, german]) expect(say?.(...values)).toContain(value);
  });

  test.each(['ENOSPC', 'EACCES', 'EPERM', 'EBUSY', 'EROFS', 'EIO', 'EDQUOT', 'EMFILE', 'ENAMETOOLONG'])(
    '%s of the disk is told in words',
    (code) => {
      for (const all of [refusalsInEnglish, refusalsInGerman]) expect(all.unwritten(code)).not.toContain(code);
    },
  );
});

test('sentences follow each other, and of an unknown name nothing is said', () => {
  const refused = new Refused(['noPlace', 'a:b'], ['nameLetter']);
  expect(refused.message).toBe('"a:b" is no place in a library where this may be written. It holds a letter that not every system allows.');
  expect(inWords([['toString'] as unknown as Said, ['nameLong']])).toBe('It is too long.');
});

describe('the page', () => {
  const told = async (error: Error): Promise<string> => {
    const reply = await replyTo({ call: async () => Promise.reject(error) } as never, 'library.open', {}, '');
    return reply.ok ? '' : new HostRefusal(reply.error.said, reply.error.message).message;
  };

  test('tells what was refused, and a fault of the program, in its own language', async () => {
    const refused = new Refused(['notLibrary', '/fans']);
    expect(await told(refused)).toContain('"/fans" is not a library');
    sayRefusalsIn(refusalsInGerman);
    expect(await told(refused)).toContain('„/fans“ ist keine Bibliothek');
    expect(await told(new Error('boom'))).toBe('Das Programm hat bei library.open versagt: boom');
    expect(refusedInWords(['fileLong', '12'])).toBe('Die Datei ist 12 MB lang und wurde nicht gelesen.');
  });

  test('tells what was refused before its language was known in that language too', () => {
    const early = new HostRefusal([['notOpen']]);
    sayRefusalsIn(refusalsInGerman);
    expect(early.message).toBe('Diese Bibliothek ist nicht geöffnet.');
  });

  test('tells one without a name as it came', () => {
    expect(new HostRefusal([], 'as it came').message).toBe('as it came');
  });
});
