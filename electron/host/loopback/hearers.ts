/**
 * Windows that listen, each over a socket of its own. Not over streams of answers: of those a browser opens six at a time to one address, all
 * windows together, and with a sixth window no call would get through any more.
 */
import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import { WebSocketServer } from 'ws';
import type { HostEvent } from '../contract/index.ts';

export class Hearers {
  // Nothing is ever said by the page here.
  private readonly sockets = new WebSocketServer({ noServer: true, maxPayload: 16, perMessageDeflate: false });

  tell(event: HostEvent): void {
    const text = JSON.stringify(event);
    for (const one of this.sockets.clients) one.send(text);
  }

  /** Who asks has been looked at. `came` and `left` are called once each. */
  take(request: IncomingMessage, socket: Duplex, head: Buffer, came: () => void, left: () => void): void {
    this.sockets.handleUpgrade(request, socket, head, (one) => {
      one.on('error', () => one.terminate());
      one.on('message', () => one.close());
      one.on('close', left);
      came();
    });
  }

  end(): void {
    for (const one of this.sockets.clients) one.terminate();
    this.sockets.close();
  }
}
