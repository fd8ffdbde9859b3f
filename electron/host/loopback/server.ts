/** The contract over the loopback address, for a browser of the same user. Serves the built page, answers calls, tells events. */
import { randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Duplex } from 'node:stream';
import { inWords, Refused } from '../contract/index.ts';
import { PAGE_HEADERS, pageFile } from '../page/index.ts';
import { replyTo, Service, type ServiceOptions } from '../service/index.ts';
import { bodyOf } from './body.ts';
import { cookieName, type Door, equal, type Head, holdsToken, turnedAway } from './door.ts';
import { type DoorWords, doorWords } from './door-words.ts';
import { Hearers } from './hearers.ts';
import { mayBeOwn } from './peer.ts';

export interface Loopback {
  /** Opens the page once; after that the browser has a cookie. */
  readonly address: string;
  readonly port: number;
  readonly close: () => Promise<void>;
}

export interface LoopbackOptions extends Omit<ServiceOptions, 'tell'> {
  readonly isOwn?: typeof mayBeOwn;
}

/** The name that a page gives its window. It tells windows apart; what they may do is the cookie's affair. */
const WINDOW = /^[\w-]{8,64}$/;

/** For an address that another page opened: the code is gone from the browser's bar and the page asks from its own site. */
const WELCOME =
  '<!doctype html><meta charset="utf-8"><link rel="icon" href="data:,"><meta http-equiv="refresh" content="0;url=/"><title>Handsclear</title>\n';

const OUTPUT_TYPES: Readonly<Record<string, string>> = { pdf: 'application/pdf', json: 'application/json', svg: 'image/svg+xml' };

export async function serveLoopback(page: string, options: LoopbackOptions): Promise<Loopback> {
  const hearers = new Hearers();
  const service = new Service({ ...options, tell: (event) => hearers.tell(event) });
  let code: string | undefined = randomBytes(24).toString('base64url');
  let door: Door = { port: 0, token: randomBytes(32).toString('base64url') };

  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const url = addressOf(request);
    const say = doorWords(request.headers['accept-language']);
    const address = `http://127.0.0.1:${door.port}/`;
    if (url === undefined) return refuse(response, 400, say.noAddress());
    const head = headOf(request);
    const given = url.searchParams.get('code');
    if (request.method === 'GET' && url.pathname === '/' && given !== null) {
      if (head.host !== `127.0.0.1:${door.port}`) return refuse(response, 403, say.otherName(address));
      // Back in the browser's history, with the cookie that it got then.
      if (holdsToken(head, door)) return welcome(response, head.site, {});
      if (code === undefined || !equal(given, code)) return refuse(response, 403, say.used());
      const { remotePort, localPort } = request.socket;
      if (!(await (options.isOwn ?? mayBeOwn)({ remote: remotePort ?? 0, local: localPort ?? 0 })))
        return refuse(response, 403, say.otherUser());
      if (code === undefined) return refuse(response, 403, say.used());
      code = undefined;
      return welcome(response, head.site, { 'set-cookie': `${cookieName(door.port)}=${door.token}; HttpOnly; SameSite=Strict; Path=/` });
    }
    const away = turnedAway(head, door, url.pathname.startsWith('/call/'));
    if (away !== undefined) return refuse(response, 403, say[away](address));
    if (url.pathname.startsWith('/call/')) return call(request, response, url.pathname.slice('/call/'.length), say);
    if (request.method !== 'GET') return refuse(response, 405, say.onlyRead());
    if (url.pathname.startsWith('/output/')) return output(response, url.pathname, say);
    const file = await pageFile(page, url.pathname);
    if (file === undefined) return refuse(response, 404, say.noFile());
    response.writeHead(200, { ...PAGE_HEADERS, 'content-type': file.type }).end(file.bytes);
  };

  const listens = (request: IncomingMessage, socket: Duplex, rest: Buffer): void => {
    const url = addressOf(request);
    // A page always names itself when it listens, as it does when it posts.
    const away = turnedAway({ ...headOf(request), method: 'POST' }, door, true);
    const window = url?.searchParams.get('window') ?? '';
    if (away !== undefined) return hangUp(socket, '403 Forbidden');
    if (url?.pathname !== '/events' || !WINDOW.test(window)) return hangUp(socket, '400 Bad Request');
    hearers.take(
      request,
      socket,
      rest,
      () => service.arrived(window),
      () => service.left(window),
    );
  };

  const call = async (request: IncomingMessage, response: ServerResponse, method: string, say: DoorWords): Promise<void> => {
    if (request.method !== 'POST' || !/^application\/json\b/.test(request.headers['content-type'] ?? ''))
      return refuse(response, 405, say.notJson());
    const window = String(request.headers['x-handsclear-window'] ?? '');
    const ask = await bodyOf(request);
    const reply = ask.ok
      ? await replyTo(service, method, ask.value, WINDOW.test(window) ? window : '')
      : { ok: false as const, refused: true, error: { message: inWords([ask.said]), said: [ask.said] } };
    response
      .writeHead(reply.ok ? 200 : reply.refused ? 400 : 500, { ...PAGE_HEADERS, 'content-type': 'application/json' })
      .end(JSON.stringify(reply));
  };

  /** What was written for printing, shown by the browser itself. */
  const output = async (response: ServerResponse, asked: string, say: DoorWords): Promise<void> => {
    const [, library = '', name = ''] = /^\/output\/([0-9a-f]+)\/([\w.-]+)$/.exec(asked) ?? [];
    const bytes = await service
      .outputFile(library, name)
      .then(readFile)
      .catch((error: unknown) => {
        if (error instanceof Refused || (error as { code?: unknown }).code === 'ENOENT') return undefined;
        throw error;
      });
    if (bytes === undefined) return refuse(response, 404, say.noOutput());
    const type = OUTPUT_TYPES[name.split('.').at(-1) ?? ''] ?? 'text/plain; charset=utf-8';
    // The browser's own viewer of documents needs none of the page's rights.
    const headers = { ...PAGE_HEADERS, 'content-security-policy': type === 'application/pdf' ? "frame-ancestors 'none'" : 'sandbox' };
    response.writeHead(200, { ...headers, 'content-type': type, 'content-disposition': 'inline' }).end(bytes);
  };

  const server = createServer((request, response) => {
    answer(request, response).catch((error: Error) => refuse(response, 500, error.message));
  });
  server.on('upgrade', listens);
  await listen(server);
  const { port } = server.address() as AddressInfo;
  door = { ...door, port };
  return {
    port,
    address: `http://127.0.0.1:${port}/?code=${code}`,
    async close() {
      hearers.end();
      await service.close();
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}

const listen = (server: Server): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: '127.0.0.1', port: 0, exclusive: true }, resolve);
  });

function headOf({ method = '', headers }: IncomingMessage): Head {
  const { host, origin, cookie } = headers;
  return { method, host, origin, site: headers['sec-fetch-site'] as string | undefined, cookie };
}

function hangUp(socket: Duplex, status: string): void {
  socket.on('error', () => undefined);
  socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
}

/** Undefined: what stands in the request line is no path. */
function addressOf(request: IncomingMessage): URL | undefined {
  const asked = request.url ?? '';
  return asked.startsWith('/') && !asked.startsWith('//') && URL.canParse(asked, 'http://127.0.0.1')
    ? new URL(asked, 'http://127.0.0.1')
    : undefined;
}

/** Whom no page sent here, but the user or the system, is led on in one step, which spares the browser a page. */
function welcome(response: ServerResponse, site: string | undefined, headers: Readonly<Record<string, string>>): void {
  const all = { ...PAGE_HEADERS, ...headers, 'content-type': 'text/html; charset=utf-8' };
  if (site === 'none') response.writeHead(303, { ...all, location: '/' }).end();
  else response.writeHead(200, all).end(WELCOME);
}

function refuse(response: ServerResponse, status: number, words: string): void {
  if (response.headersSent) return void response.end();
  response.writeHead(status, { ...PAGE_HEADERS, 'content-type': 'text/plain; charset=utf-8' }).end(`${words}\n`);
}
