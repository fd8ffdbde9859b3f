import { existsSync, readFileSync } from 'node:fs';
import { request as ask, createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { WebSocket } from 'ws';
import { type Loopback, type LoopbackOptions, serveLoopback } from '../../../electron/host/loopback/index.ts';
import { mayBeOwn, ownerIn } from '../../../electron/host/loopback/peer.ts';
import { newFolder, newLibrary, put } from '../../support/host.ts';

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: string;
}

/** A bare request, in which every header can be a lie. */
function send(
  port: number,
  method: string,
  target: string,
  headers: Readonly<Record<string, string>> = {},
  body?: string,
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const one = ask(
      { host: '127.0.0.1', port, method, path: target, agent: false, headers: { host: `127.0.0.1:${port}`, ...headers } },
      (answer) => {
        let text = '';
        answer.setEncoding('utf8');
        answer.on('data', (part) => {
          text += part;
        });
        answer.on('end', () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body: text }));
      },
    );
    one.on('error', reject);
    one.end(method === 'POST' ? body : undefined);
  });
}

/** The status with which a socket is refused; 101: it is not. */
function refusedSocket(port: number, target: string, headers: Readonly<Record<string, string>>): Promise<number> {
  return new Promise((resolve) => {
    const socket = new WebSocket(`ws://127.0.0.1:${port}${target}`, { headers: { host: `127.0.0.1:${port}`, ...headers } });
    socket.on('unexpected-response', (_, answer) => {
      resolve(answer.statusCode ?? 0);
      socket.terminate();
    });
    socket.on('error', () => undefined);
    socket.on('open', () => {
      resolve(101);
      socket.terminate();
    });
  });
}

const page = newFolder();
put(page, {
  'index.html': '<!doctype html>page',
  'assets/index.js': 'run()',
  'assets/.hidden.js': 'x',
  'secret.js': 'x',
  'assets/notes.xyz': 'x',
});
const library = newLibrary({ 'library.yaml': 'publisher: x\n', 'procedures/a.md': 'first\n' });

const open: Loopback[] = [];
async function serve(more: Partial<LoopbackOptions> = {}): Promise<Loopback> {
  const loopback = await serveLoopback(page, { data: newFolder(), sample: library, home: newFolder(), ...more });
  open.push(loopback);
  return loopback;
}
afterAll(async () => {
  for (const one of open) await one.close();
});

const target = ({ address }: Loopback): string => new URL(address).pathname + new URL(address).search;

/** What a browser sends along once it was let in. */
async function enter(loopback: Loopback): Promise<Readonly<Record<string, string>>> {
  const answer = await send(loopback.port, 'GET', target(loopback), { 'sec-fetch-site': 'none' });
  const cookie = String(answer.headers['set-cookie']).split(';')[0] ?? '';
  return { cookie, origin: `http://127.0.0.1:${loopback.port}`, 'sec-fetch-site': 'same-origin', 'content-type': 'application/json' };
}

let loopback: Loopback;
let own: Readonly<Record<string, string>>;
const without = (name: string): Readonly<Record<string, string>> => Object.fromEntries(Object.entries(own).filter(([key]) => key !== name));
const call = (headers: Readonly<Record<string, string>> = own, method = 'libraries.recent', body = '{}', verb = 'POST') =>
  send(loopback.port, verb, `/call/${method}`, headers, body);

beforeAll(async () => {
  loopback = await serve();
  own = await enter(loopback);
});

describe('the browser that was handed the address', () => {
  test('may ask', async () => {
    const { status, body } = await call();
    expect([status, JSON.parse(body).ok]).toEqual([200, true]);
  });

  test('is served the page, and the page may load nothing from elsewhere and run nothing made at run time', async () => {
    const { status, headers, body } = await send(loopback.port, 'GET', '/', own);
    expect([status, body]).toEqual([200, '<!doctype html>page']);
    const policy = String(headers['content-security-policy']);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).not.toMatch(/unsafe-eval|script-src[^;]*unsafe-inline|https?:|\*/);
    expect(policy).toContain("frame-ancestors 'none'");
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['cache-control']).toBe('no-store');
    expect(headers['referrer-policy']).toBe('no-referrer');
  });

  test.each(['/', '/assets/index.js', '/call/libraries.recent', '/nowhere'])('gets the policy with every answer: %s', async (asked) => {
    const { headers } = await send(loopback.port, 'GET', asked, own);
    expect(headers['content-security-policy']).toContain("default-src 'none'");
  });

  test('gets its files in their kinds', async () => {
    const { status, headers } = await send(loopback.port, 'GET', '/assets/index.js', own);
    expect([status, headers['content-type']]).toEqual([200, 'text/javascript; charset=utf-8']);
  });

  test('keeps a cookie that no script reads and no other site sends', async () => {
    const fresh = await serve();
    const { headers } = await send(fresh.port, 'GET', target(fresh));
    expect(headers['set-cookie']).toHaveLength(1);
    expect(headers['set-cookie']?.[0]).toMatch(new RegExp(`^handsclear-${fresh.port}=[\\w-]{43}; HttpOnly; SameSite=Strict; Path=/$`));
  });

  test('may go back to the first address', async () => {
    expect((await send(loopback.port, 'GET', target(loopback), own)).status).toBe(200);
  });
});

describe('the address that was handed out', () => {
  test('works once', async () => {
    const fresh = await serve();
    expect((await send(fresh.port, 'GET', target(fresh))).status).toBe(200);
    const again = await send(fresh.port, 'GET', target(fresh));
    expect([again.status, again.headers['set-cookie'], again.body]).toEqual([
      403,
      undefined,
      expect.stringMatching(/^This address was used already.* start Handsclear again/),
    ]);
  });

  test('works once, also when two ask at the same moment', async () => {
    const fresh = await serve();
    const answers = await Promise.all([1, 2, 3, 4].map(() => send(fresh.port, 'GET', target(fresh))));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 403, 403, 403]);
    expect(answers.filter(({ headers }) => headers['set-cookie'] !== undefined)).toHaveLength(1);
  });

  test.each(['/?code=', '/?code=x', `/?code=${'a'.repeat(32)}`])('cannot be guessed: %s', async (guess) => {
    const fresh = await serve();
    expect((await send(fresh.port, 'GET', guess)).status).toBe(403);
    // A wrong guess does not use it up.
    expect((await send(fresh.port, 'GET', target(fresh))).status).toBe(200);
  });

  test('is another one each time', async () => {
    expect(new URL((await serve()).address).search).not.toBe(new URL((await serve()).address).search);
  });

  test('does not work by another name, as when a name of somebody else leads here', async () => {
    const fresh = await serve();
    expect((await send(fresh.port, 'GET', target(fresh), { host: `evil.example:${fresh.port}` })).status).toBe(403);
    expect((await send(fresh.port, 'GET', target(fresh), { host: `localhost:${fresh.port}` })).status).toBe(403);
  });

  test('does not work for another user of the machine, and is not used up by the try', async () => {
    let mine = false;
    const fresh = await serve({ isOwn: async () => mine });
    const other = await send(fresh.port, 'GET', target(fresh));
    expect([other.status, other.body]).toEqual([403, expect.stringContaining('was not started by you')]);
    mine = true;
    expect((await send(fresh.port, 'GET', target(fresh))).status).toBe(200);
  });
});

describe('who is turned away', () => {
  const cases: readonly (readonly [string, () => Readonly<Record<string, string>>])[] = [
    ['without a cookie', () => without('cookie')],
    [
      'with a cookie that is wrong in one letter',
      () => ({ ...own, cookie: own.cookie?.replace(/.$/, (last) => (last === 'A' ? 'B' : 'A')) ?? '' }),
    ],
    ['with the cookie cut short', () => ({ ...own, cookie: own.cookie?.slice(0, -1) ?? '' })],
    ['with an empty cookie', () => ({ ...own, cookie: `handsclear-${loopback.port}=` })],
    ['by another name', () => ({ ...own, host: `localhost:${loopback.port}` })],
    ['by a name of somebody else', () => ({ ...own, host: 'evil.example' })],
    ['by the right name without the port', () => ({ ...own, host: '127.0.0.1' })],
    ['from another page', () => ({ ...own, origin: 'https://evil.example' })],
    ['from a page at another port', () => ({ ...own, origin: `http://127.0.0.1:${loopback.port + 1}` })],
    ['from a page by another scheme', () => ({ ...own, origin: `https://127.0.0.1:${loopback.port}` })],
    ['from a page without an origin of its own', () => ({ ...own, origin: 'null' })],
    ['without saying from which page', () => without('origin')],
    ['from another site', () => ({ ...own, 'sec-fetch-site': 'cross-site' })],
    ['from a site beside', () => ({ ...own, 'sec-fetch-site': 'same-site' })],
    ['from the address bar', () => ({ ...own, 'sec-fetch-site': 'none' })],
  ];
  test.each(cases)('who asks %s', async (_, headers) => {
    const { status, body } = await call(headers());
    expect(status).toBe(403);
    expect(body).not.toContain('"ok"');
  });

  test.each(cases)('who listens %s', async (_, headers) => {
    expect(await refusedSocket(loopback.port, '/events?window=12345678', headers())).toBe(403);
  });

  test.each(cases.filter(([name]) => !/without saying|address bar/.test(name)))('who fetches the page %s', async (_, headers) => {
    expect((await send(loopback.port, 'GET', '/', headers())).status).toBe(403);
  });
});

describe('other ways of asking', () => {
  test.each(['GET', 'PUT', 'DELETE', 'OPTIONS', 'PATCH', 'HEAD'])('%s is no call', async (verb) => {
    expect((await call(own, 'libraries.recent', '{}', verb)).status).toBe(405);
  });

  test.each(['POST', 'PUT', 'DELETE', 'OPTIONS'])('the page is not changed by %s', async (verb) => {
    expect((await send(loopback.port, verb, '/', own)).status).toBe(405);
  });

  test.each(['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data', ''])('a form cannot ask: "%s"', async (type) => {
    expect((await call({ ...own, 'content-type': type })).status).toBe(405);
  });

  test.each(['', 'no json', '{', '[]', '"text"', 'null'])('%j is no request', async (body) => {
    const { status, body: answer } = await call(own, 'libraries.recent', body);
    expect([status, JSON.parse(answer).ok]).toEqual([400, false]);
  });

  test('what is no method is refused', async () => {
    for (const name of ['', 'x', 'constructor', '__proto__']) expect((await call(own, name)).status, name).toBe(400);
  });

  test('no request of another origin is ever allowed by a header', async () => {
    const { headers } = await send(loopback.port, 'OPTIONS', '/call/file.save', {
      ...own,
      origin: 'https://evil.example',
      'access-control-request-method': 'POST',
    });
    expect(Object.keys(headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });
});

describe('whoever is turned away before a browser', () => {
  const cases: readonly (readonly [string, string, () => Readonly<Record<string, string>>, RegExp, RegExp])[] = [
    ['without the cookie', '/', () => without('cookie'), /start handsclear again/i, /starten Sie Handsclear neu/i],
    [
      'by another name',
      '/',
      () => ({ ...own, host: `localhost:${loopback.port}` }),
      /Open http:\/\/127\.0\.0\.1:\d+\/ instead/,
      /Öffnen Sie/,
    ],
    ['from another page', '/', () => ({ ...own, 'sec-fetch-site': 'cross-site' }), /type the address/i, /tippen Sie die Adresse/i],
    ['with a used address', '/?code=used', () => without('cookie'), /start Handsclear again/, /starten Sie Handsclear neu/i],
    ['looking for what is not there', '/nothing', () => own, /without anything behind/, /hinter deren Zahl/],
    ['looking for a print that is gone', '/output/0123/a.pdf', () => own, /Write it again/, /Schreiben Sie sie/],
  ];
  test.each(cases)('%s is told what to do, in the language of the browser', async (_, asked, headers, english, german) => {
    expect((await send(loopback.port, 'GET', asked, headers())).body).toMatch(english);
    for (const language of ['de', 'de-AT,de;q=0.9,en;q=0.8'])
      expect((await send(loopback.port, 'GET', asked, { ...headers(), 'accept-language': language })).body).toMatch(german);
    for (const language of ['en-GB,en;q=0.9,de;q=0.8', 'fr', 'den', '*'])
      expect((await send(loopback.port, 'GET', asked, { ...headers(), 'accept-language': language })).body).toMatch(english);
  });
});

describe('files', () => {
  test.each([
    '/secret.js',
    '/assets/../secret.js',
    '/assets/..%2fsecret.js',
    '/assets/%2e%2e/secret.js',
    '/assets/.hidden.js',
    '/assets/notes.xyz',
    '/assets/none.js',
    '/assets/',
    '/assets/a/b.js',
    '/..%5c..%5csecret.js',
    '/index.html%00.js',
    '/library.yaml',
  ])('%s is not served', async (asked) => {
    const { status, body } = await send(loopback.port, 'GET', asked, own);
    expect([status, body]).toEqual([404, expect.stringMatching(/^There is no such page/)]);
  });

  test.each(['//evil.example/', 'http://evil.example/', '*', '//['])('"%s" is no address here', async (asked) => {
    expect((await send(loopback.port, 'GET', asked, own)).status).toBe(400);
  });

  test('what was written for printing is shown to the same browser only, and may run nothing', async () => {
    const opened = JSON.parse((await call(own, 'library.open', JSON.stringify({ folder: library }))).body).value.library;
    const base64 = Buffer.from('%PDF-1.7').toString('base64');
    await call(own, 'output.write', JSON.stringify({ library: opened, name: 'a.pdf', base64 }));
    const { value } = JSON.parse((await call(own, 'output.show', JSON.stringify({ library: opened, name: 'a.pdf', how: 'print' }))).body);
    const shown = await send(loopback.port, 'GET', value.address, own);
    expect([shown.status, shown.headers['content-type'], shown.body]).toEqual([200, 'application/pdf', '%PDF-1.7']);
    expect((await send(loopback.port, 'GET', value.address, without('cookie'))).status).toBe(403);
    await call(own, 'output.write', JSON.stringify({ library: opened, name: 'a.svg', base64 }));
    expect((await send(loopback.port, 'GET', `/output/${opened}/a.svg`, own)).headers['content-security-policy']).toBe('sandbox');
    for (const name of ['b.pdf', '..%2flibrary.yaml', '../../library.yaml', 'x.exe', ''])
      expect((await send(loopback.port, 'GET', `/output/${opened}/${name}`, own)).status, name).toBe(404);
    expect((await send(loopback.port, 'GET', '/output/0123/a.pdf', own)).status).toBe(404);
  });
});

describe('two windows', () => {
  /** A window that listens: gives what it is told, and goes away. */
  async function listen(one: Loopback, headers: Readonly<Record<string, string>>, window: string) {
    let text = '';
    const own = `127.0.0.1:${one.port}`;
    const socket = new WebSocket(`ws://${own}/events?window=${window}`, { headers: { origin: `http://${own}`, ...headers } });
    socket.on('message', (part) => {
      text += String(part);
    });
    await new Promise<void>((resolve, reject) => {
      socket.on('error', reject);
      socket.on('open', resolve);
    });
    return { text: () => text, leave: () => socket.terminate(), socket };
  }

  test('both hear what one saves; unsaved text of one is offered to the other only when the first is gone', async () => {
    const folder = newLibrary();
    const one = await serve();
    const cookie = await enter(one);
    const [first, second] = [await listen(one, cookie, 'window-first'), await listen(one, cookie, 'window-second')];
    const from = async (window: string, method: string, body: object) =>
      JSON.parse((await send(one.port, 'POST', `/call/${method}`, { ...cookie, 'x-handsclear-window': window }, JSON.stringify(body))).body)
        .value;
    const { library: opened } = await from('window-first', 'library.open', { folder });
    await from('window-first', 'library.read', { library: opened });
    await from('window-first', 'file.save', { library: opened, files: [{ path: 'procedures/b.md', base: null, text: 'new\n' }] });
    await expect.poll(() => [first.text(), second.text()].every((text) => text.includes('"path":"procedures/b.md"'))).toBe(true);

    const entries = [{ path: 'procedures/b.md', base: null, text: 'unsaved\n' }];
    await from('window-first', 'journal.put', { library: opened, window: 'journal-1', entries });
    expect((await from('window-second', 'journal.list', { library: opened })).entries).toEqual([]);
    first.leave();
    await expect
      .poll(async () => (await from('window-second', 'journal.list', { library: opened })).entries)
      .toEqual([{ ...entries[0], window: 'journal-1' }]);
    second.leave();
  });

  test('only the window that added a figure takes it away again', async () => {
    const folder = newLibrary();
    const host = await serve({ sample: folder });
    const headers = await enter(host);
    const as = async (window: string, method: string, body: object) =>
      JSON.parse(
        (await send(host.port, 'POST', `/call/${method}`, { ...headers, 'x-handsclear-window': window }, JSON.stringify(body))).body,
      );
    const { library: id } = (await as('window-one', 'library.open', { folder })).value;
    const base64 = Buffer.from('<svg/>').toString('base64');
    expect(await as('window-one', 'figure.write', { library: id, name: 'fan.svg', base64 })).toMatchObject({ value: { added: true } });
    const ask = { library: id, path: 'figures/fan.svg' };
    expect(await as('window-two', 'figure.remove', ask)).toMatchObject({ ok: false, refused: true });
    expect(existsSync(`${folder}/figures/fan.svg`)).toBe(true);
    expect(await as('window-one', 'figure.remove', ask)).toMatchObject({ ok: true, value: { removed: true, usedIn: [] } });
    expect(existsSync(`${folder}/figures/fan.svg`)).toBe(false);
  });

  test('a window that listens without a name is refused', async () => {
    for (const name of ['', 'x', 'a/b/c/d/e/f', 'x'.repeat(65)])
      expect(await refusedSocket(loopback.port, `/events?window=${encodeURIComponent(name)}`, own), name).toBe(400);
    expect(await refusedSocket(loopback.port, '/call/library.open?window=12345678', own)).toBe(400);
    expect(await refusedSocket(loopback.port, '/events?window=12345678', own)).toBe(101);
  });

  test('a window that talks where it is to listen is hung up on, and counts as gone', async () => {
    const one = await serve();
    const { socket } = await listen(one, await enter(one), 'window-talks');
    const closed = new Promise((resolve) => socket.on('close', resolve));
    socket.send('x');
    await closed;
  });
});

describe('whose connection it is', () => {
  // Lines as in proc_pid_net(5), /proc/net/tcp: number, local end, remote end, state, queues, timer, retransmissions, user.
  const table = [
    '  sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode',
    '   0: 0100007F:1F90 00000000:0000 0A 00000000:00000000 00:00000000 00000000  1000        0 11 1',
    '   1: 0100007F:1F90 0100007F:D431 01 00000000:00000000 00:00000000 00000000  1000        0 12 1',
    '   2: 0100007F:D431 0100007F:1F90 01 00000000:00000000 00:00000000 00000000  1001        0 13 1',
  ].join('\n');

  test('is read from the line of the one who asks, not from our own', () => {
    expect(ownerIn(table, { remote: 0xd431, local: 0x1f90 })).toBe(1001);
    expect(ownerIn(table, { remote: 0xd432, local: 0x1f90 })).toBeUndefined();
    expect(ownerIn('', { remote: 1, local: 2 })).toBeUndefined();
  });

  test.runIf(existsSync('/proc/net/tcp'))('is found in the table of this very machine', async () => {
    const found = await new Promise<number | undefined>((resolve) => {
      const server = createServer(({ socket }, response) => {
        const ends = { remote: socket.remotePort ?? 0, local: socket.localPort ?? 0 };
        resolve(ownerIn(readFileSync('/proc/net/tcp', 'utf8'), ends));
        response.end();
        server.close();
      });
      server.listen(0, '127.0.0.1', () => void send((server.address() as AddressInfo).port, 'GET', '/'));
    });
    expect(found).toBe(process.getuid?.());
  });

  test('another user is told from oneself; where the system does not say, nobody is refused for that', async () => {
    const ends = { remote: 0xd431, local: 0x1f90 };
    expect(await mayBeOwn(ends, 1000, async () => table)).toBe(false);
    expect(await mayBeOwn(ends, 1001, async () => table)).toBe(true);
    expect(await mayBeOwn(ends, 1000, async () => '')).toBe(true);
    expect(await mayBeOwn(ends, null, async () => table)).toBe(true);
  });
});

test('it listens on the loopback address only', async () => {
  const answers = await fetch(`http://[::1]:${loopback.port}/`).then(
    () => 'answered',
    () => 'silent',
  );
  expect(answers).toBe('silent');
});

test('closing ends what listens and answers no more', async () => {
  const one = await serveLoopback(page, { data: newFolder(), sample: library, home: library });
  await one.close();
  await expect(send(one.port, 'GET', '/')).rejects.toThrow('ECONNREFUSED');
});
