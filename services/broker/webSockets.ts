import type { IncomingMessage, Server } from 'node:http';
import type { Duplex } from 'node:stream';
import { createWebSocketStream, type WebSocket, WebSocketServer } from 'ws';

/** MQTT 3.1.1 section 6: a client must offer this subprotocol, and the server answers with it. */
const subprotocol = 'mqtt';

/**
 * Hands every WebSocket of an HTTP server on as a stream of bytes; any path will do. Frames larger than a packet may be
 * are refused before they are gathered.
 */
export function takeWebSockets(
  server: Server,
  mostBytes: number,
  onConnection: (stream: Duplex) => void,
): void {
  const sockets = new WebSocketServer({
    noServer: true,
    maxPayload: mostBytes,
    handleProtocols: (offered) => (offered.has(subprotocol) ? subprotocol : false),
    verifyClient: ({ req }: { readonly req: IncomingMessage }) => offersMqtt(req),
  });
  server.on('upgrade', (request, socket, head) => {
    sockets.handleUpgrade(request, socket, head, (webSocket) => take(webSocket, request));
  });
  server.on('request', (_request, response) => {
    response.writeHead(426, { upgrade: 'websocket', connection: 'close' }).end('MQTT over WebSocket only\n');
  });

  function take(socket: WebSocket, request: IncomingMessage): void {
    const stream = createWebSocketStream(socket);
    // A broken link ends the stream; the MQTT side says why.
    stream.on('error', () => {});
    // The sign-in throttle counts by address.
    onConnection(Object.assign(stream, { remoteAddress: request.socket.remoteAddress }));
  }
}

function offersMqtt(request: IncomingMessage): boolean {
  const offered = request.headers['sec-websocket-protocol'] ?? '';
  return offered.split(',').some((name) => name.trim() === subprotocol);
}
