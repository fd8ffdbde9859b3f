/** The contract over the loopback address, for a browser of the same user. Serves the built page, answers calls, tells events. */
import { randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { type HostEvent, METHODS, type MethodName } from '../contract/index.ts';
import { Refused, Service, type ServiceOptions } from '../service/index.ts';
import { cookieName, type Door, equal, turnedAway } from './door.ts';

export interface Loopback {
  /** Opens the page once; after that the browser has a cookie. */
  readonly address: string;
  readonly port: number;
  readonly close: () => Promise<void>;
}

/** A library's whole text may be saved in one go. */
const LARGEST_BODY = 256_000_000;

const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  // The editor component sets styles of its own.
  "style-src 'self' 'unsafe-inline'",
  "font-src 'self' data:",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.ttf': 'font/ttf',
  '.woff2': 'font/woff2',
};

const HEADERS = {
  'content-security-policy': POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'cache-control': 'no-store',
};

export async function serveLoopback(page: string, options: Omit<ServiceOptions, 'tell'>): Promise<Loopback> {
  const hearing = new Set<ServerResponse>();
  const tell = (event: HostEvent): void => {
    for (const one of hearing) one.write(`data: ${JSON.stringify(event)}\n\n`);
  };
  const service = new Service({ ...options, tell });
  let code: string | undefined = randomBytes(24).toString('base64url');
  let door: Door = { port: 0, token: randomBytes(32).toString('base64url') };

  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const url = new URL(request.url ?? '/', 'http://127.0.0.1');
    const given = url.searchParams.get('code');
    const head = {
      method: request.method ?? '',
      host: request.headers.host,
      origin: request.headers.origin,
      site: request.headers['sec-fetch-site'] as string | undefined,
      cookie: request.headers.cookie,
    };
    if (request.method === 'GET' && url.pathname === '/' && given !== null) {
      if (head.host !== `127.0.0.1:${door.port}` || code === undefined || !equal(given, code))
        return refuse(response, 403, 'This address was used already.');
      code = undefined;
      const cookie = `${cookieName(door.port)}=${door.token}; HttpOnly; SameSite=Strict; Path=/`;
      response.writeHead(303, { ...HEADERS, location: '/', 'set-cookie': cookie }).end();
      return;
    }
    const asks = url.pathname.startsWith('/call/') || url.pathname === '/events';
    const away = turnedAway(head, door, asks);
    if (away !== undefined) return refuse(response, 403, away);
    if (url.pathname.startsWith('/call/')) return call(request, response, url.pathname.slice('/call/'.length));
    if (request.method !== 'GET') return refuse(response, 405, 'This is only read.');
    if (url.pathname === '/events') {
      response.writeHead(200, { ...HEADERS, 'content-type': 'text/event-stream' }).write(': here\n\n');
      hearing.add(response);
      request.on('close', () => hearing.delete(response));
      return;
    }
    await file(response, url.pathname);
  };

  const call = async (request: IncomingMessage, response: ServerResponse, method: string): Promise<void> => {
    if (request.method !== 'POST' || !/^application\/json\b/.test(request.headers['content-type'] ?? ''))
      return refuse(response, 405, 'Calls are posted as JSON.');
    const write = (status: number, body: unknown): void => {
      response.writeHead(status, { ...HEADERS, 'content-type': 'application/json' }).end(JSON.stringify(body));
    };
    try {
      const value = await service.call(method, JSON.parse(await bodyOf(request)));
      write(200, { ok: true, value });
    } catch (error) {
      const refused = error instanceof Refused || error instanceof SyntaxError;
      const message = refused
        ? (error as Error).message
        : `The program failed at ${Object.hasOwn(METHODS, method) ? (method as MethodName) : 'a call'}: ${(error as Error).message}`;
      write(refused ? 400 : 500, { ok: false, error: { message } });
    }
  };

  const file = async (response: ServerResponse, asked: string): Promise<void> => {
    const own = asked === '/' ? 'index.html' : asked.slice(1);
    const type = TYPES[path.extname(own)];
    // Names of built files only: no dots but one, no way up.
    if (type === undefined || !/^(index\.html|assets\/[\w.-]+)$/.test(own) || own.includes('..'))
      return refuse(response, 404, 'There is no such file.');
    const bytes = await readFile(path.join(page, ...own.split('/'))).catch(() => undefined);
    if (bytes === undefined) return refuse(response, 404, 'There is no such file.');
    response.writeHead(200, { ...HEADERS, 'content-type': type }).end(bytes);
  };

  const server = createServer((request, response) => {
    answer(request, response).catch((error: Error) => refuse(response, 500, error.message));
  });
  await listen(server);
  const { port } = server.address() as AddressInfo;
  door = { ...door, port };
  return {
    port,
    address: `http://127.0.0.1:${port}/?code=${code}`,
    async close() {
      for (const one of hearing) one.end();
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
      await service.close();
    },
  };
}

const listen = (server: Server): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: '127.0.0.1', port: 0, exclusive: true }, resolve);
  });

function refuse(response: ServerResponse, status: number, words: string): void {
  if (response.headersSent) return void response.end();
  response.writeHead(status, { ...HEADERS, 'content-type': 'text/plain; charset=utf-8' }).end(`${words}\n`);
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of request) {
    size += (part as Buffer).length;
    if (size > LARGEST_BODY) throw new Refused('This is more than can be taken in one go.');
    parts.push(part as Buffer);
  }
  return Buffer.concat(parts).toString('utf8');
}
