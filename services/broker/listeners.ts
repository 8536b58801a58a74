import { readFile } from 'node:fs/promises';
import { createServer as createHttpServer, type Server as HttpServer } from 'node:http';
import { createServer as createHttpsServer } from 'node:https';
import { type AddressInfo, createServer, type Server, type Socket } from 'node:net';
import type { Duplex } from 'node:stream';
import { createServer as createTlsServer, type TlsOptions } from 'node:tls';
import { takeWebSockets } from './webSockets.ts';

const mostConnections = 2_000;

export interface ListenConfig {
  readonly host: string;
  /** 0 takes a free one. */
  readonly port: number;
  readonly tls: { readonly certificateFile: string; readonly keyFile: string } | null;
  /** MQTT over WebSocket as well; null or left out: no. */
  readonly webSocketPort?: number | null;
}

/** A port that takes connections. */
export interface Listener {
  readonly port: number;
  /** Takes no more connections. */
  refuse(): void;
  /** Ends those that are left and resolves when the port is free. */
  close(): Promise<void>;
}

export interface Listeners {
  readonly mqtt: Listener;
  readonly webSocket: Listener | null;
}

/** Listens for MQTT and, where configured, for MQTT over WebSocket. Rejects, and listens nowhere, when one cannot. */
export async function listenEverywhere(
  config: ListenConfig,
  mostBytes: number,
  onConnection: (stream: Duplex) => void,
  onError: (error: Error) => void,
): Promise<Listeners> {
  const tls = await tlsOptions(config.tls);
  const server =
    tls === null ? createServer({ noDelay: true }, onConnection) : createTlsServer(tls, onConnection);
  const mqtt = await listen(server, config.host, config.port, onError);
  const { webSocketPort = null } = config;
  if (webSocketPort === null) return { mqtt, webSocket: null };
  try {
    const http: HttpServer = tls === null ? createHttpServer() : createHttpsServer(tls);
    takeWebSockets(http, mostBytes, onConnection);
    return { mqtt, webSocket: await listen(http, config.host, webSocketPort, onError) };
  } catch (error) {
    mqtt.refuse();
    await mqtt.close();
    throw error;
  }
}

async function tlsOptions(tls: ListenConfig['tls']): Promise<TlsOptions | null> {
  if (tls === null) return null;
  const [cert, key] = await Promise.all([readFile(tls.certificateFile), readFile(tls.keyFile)]);
  return { cert, key, minVersion: 'TLSv1.2' };
}

async function listen(
  server: Server | HttpServer,
  host: string,
  port: number,
  onError: (error: Error) => void,
): Promise<Listener> {
  server.maxConnections = mostConnections;
  const sockets = new Set<Socket>();
  server.on('connection', (socket: Socket) => {
    sockets.add(socket);
    socket.once('close', () => sockets.delete(socket));
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });
  server.on('error', onError);
  let closed: Promise<unknown> = Promise.resolve();
  return {
    port: (server.address() as AddressInfo).port,
    refuse() {
      closed = new Promise((resolve) => server.close(resolve));
    },
    async close() {
      // Those that never signed in are unknown to the MQTT library and would hold the listener open.
      for (const socket of sockets) socket.destroy();
      await closed;
    },
  };
}
