import { readFile } from 'node:fs/promises';
import { type AddressInfo, createServer, type Server, type Socket } from 'node:net';
import { createServer as createTlsServer } from 'node:tls';
import { Aedes, type Client } from 'aedes';
import type { BaseLogger } from 'pino';
import type { Clock } from '../clock.ts';
import type { IngestPort } from '../ingest/port.ts';
import { type Connections, createConnections } from './connections.ts';
import { limitPacketSize, PacketTooLarge } from './packetLimit.ts';
import type { BrokerPort, ProbeCredentials } from './port.ts';
import { createAuthorizePublish } from './publishing.ts';
import { createSignIn } from './signIn.ts';

/** Room for the topic and the header beside the payload. */
const topicBytes = 1_024;
const sweepMilliseconds = 30_000;
const mostConnections = 2_000;

export interface BrokerOptions {
  readonly config: {
    readonly host: string;
    /** 0 takes a free one. */
    readonly port: number;
    readonly tls: { readonly certificateFile: string; readonly keyFile: string } | null;
    readonly maxPayloadBytes: number;
  };
  readonly ingest: IngestPort;
  readonly credentials: ProbeCredentials;
  /** Topic filters of mapped senders, which may publish outside the branch of their probe. */
  readonly mappedFilters?: readonly string[];
  readonly clock: Clock;
  readonly logger: Pick<BaseLogger, 'info' | 'warn' | 'error'>;
}

export interface RunningBroker extends BrokerPort {
  /** The port it listens on. */
  readonly port: number;
  /** Takes no more messages and ends every connection. What ingest holds unacknowledged its senders keep. */
  stop(): Promise<void>;
}

interface Counts {
  messages: number;
  signInsRefused: number;
  messagesRefused: number;
}

/**
 * The embedded MQTT 3.1.1 broker: probes sign in and publish, nobody subscribes. Rejects when it cannot listen.
 */
export async function startBroker(options: BrokerOptions): Promise<RunningBroker> {
  const { config, logger } = options;
  const counts: Counts = { messages: 0, signInsRefused: 0, messagesRefused: 0 };
  const connections = createConnections();
  const aedes = await createAedes(options, connections, counts);
  const sockets = new Set<Socket>();
  const server = await listen(config, (socket) => {
    sockets.add(socket);
    socket.once('close', () => sockets.delete(socket));
    limitPacketSize(aedes.handle(socket), config.maxPayloadBytes + topicBytes);
  });
  server.on('error', (error) => logger.error({ err: error }, 'broker cannot take connections'));
  const sweep = setInterval(() => void endRevoked(options, connections), sweepMilliseconds);
  return {
    port: (server.address() as AddressInfo).port,
    statistics: () => ({
      ...counts,
      connectedProbes: connections.probeIds(),
      connections: connections.count(),
    }),
    disconnectProbe: connections.disconnect,
    async stop() {
      clearInterval(sweep);
      const closed = new Promise((resolve) => server.close(resolve));
      await new Promise<void>((resolve) => aedes.close(resolve));
      // Those that never signed in are unknown to the library and would hold the listener open.
      for (const socket of sockets) socket.destroy();
      await closed;
    },
  };
}

/** The library, told who may sign in, who may publish what, and that nobody may subscribe. */
async function createAedes(options: BrokerOptions, connections: Connections, counts: Counts): Promise<Aedes> {
  const aedes = await Aedes.createBroker({
    authenticate: createSignIn({ ...options, connections, onRefused: () => counts.signInsRefused++ }),
    authorizePublish: createAuthorizePublish({
      ...options,
      connections,
      mappedFilters: options.mappedFilters ?? [],
      mostPayloadBytes: options.config.maxPayloadBytes,
      onMessage: () => counts.messages++,
      onRefused: () => counts.messagesRefused++,
    }),
    authorizeSubscribe: (_client, _subscription, done) => done(null, null),
  });
  const onError = (client: Client, error: Error) => {
    connections.gone(client);
    const probe = connections.probeOf(client)?.probeId ?? null;
    options.logger.warn({ probe }, `connection of a probe ended: ${error.message}`);
    if (!(error instanceof PacketTooLarge)) return;
    counts.messagesRefused++;
    if (probe !== null) void options.ingest.turnAway(tooLarge(probe, error));
  };
  aedes.on('clientDisconnect', (client) => connections.gone(client));
  aedes.on('clientError', onError);
  aedes.on('connectionError', onError);
  return aedes;
}

async function listen(
  { host, port, tls }: BrokerOptions['config'],
  onConnection: (socket: Socket) => void,
): Promise<Server> {
  const server =
    tls === null
      ? createServer({ noDelay: true }, onConnection)
      : createTlsServer(
          {
            cert: await readFile(tls.certificateFile),
            key: await readFile(tls.keyFile),
            minVersion: 'TLSv1.2',
          },
          onConnection,
        );
  server.maxConnections = mostConnections;
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });
  return server;
}

function tooLarge(probe: string, error: PacketTooLarge) {
  // Refused by its announced length, so neither topic nor payload were read.
  return {
    topic: '',
    probe,
    reason: error.message,
    payloadStart: new Uint8Array(),
    payloadBytes: error.bytes,
  };
}

/** A credential may be revoked by another process, or while nobody tells the broker. */
async function endRevoked({ credentials, logger }: BrokerOptions, connections: Connections): Promise<void> {
  for (const probeId of connections.probeIds()) {
    try {
      if (!(await credentials.isInService(probeId))) connections.disconnect(probeId);
    } catch (error) {
      logger.error({ err: error }, 'credentials could not be checked');
    }
  }
}
