import type { Duplex } from 'node:stream';
import { Aedes, type Client } from 'aedes';
import type { BaseLogger } from 'pino';
import type { Clock } from '../clock.ts';
import type { IngestPort } from '../ingest/port.ts';
import { type Connections, createConnections } from './connections.ts';
import { type ListenConfig, type Listener, listenEverywhere } from './listeners.ts';
import { limitPacketSize, PacketTooLarge } from './packetLimit.ts';
import type { BrokerPort, ProbeCredentials } from './port.ts';
import { createAuthorizePublish } from './publishing.ts';
import { createRefusals, type Refusals } from './refusals.ts';
import { createSignIn } from './signIn.ts';

/** Room for the topic and the header beside the payload. */
const topicBytes = 1_024;
const sweepMilliseconds = 30_000;

export interface BrokerOptions {
  readonly config: ListenConfig & { readonly maxPayloadBytes: number };
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
  /** The port of MQTT over WebSocket; null when it is off. */
  readonly webSocketPort: number | null;
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
  const refusals = createRefusals();
  const aedes = await createAedes(options, connections, counts, refusals);
  const mostBytes = config.maxPayloadBytes + topicBytes;
  const onConnection = (stream: Duplex) => limitPacketSize(aedes.handle(stream), mostBytes);
  const onError = (error: Error) => logger.error({ err: error }, 'broker cannot take connections');
  const { mqtt, webSocket } = await listenEverywhere(config, mostBytes, onConnection, onError);
  const sweep = setInterval(() => void endRevoked(options, connections), sweepMilliseconds);
  return {
    port: mqtt.port,
    webSocketPort: webSocket?.port ?? null,
    statistics: () => ({
      ...counts,
      connectedProbes: connections.probeIds(),
      connections: connections.count(),
    }),
    refusedSignIns: refusals.list,
    disconnectProbe: connections.disconnect,
    async stop() {
      clearInterval(sweep);
      const listeners: Listener[] = webSocket === null ? [mqtt] : [mqtt, webSocket];
      for (const listener of listeners) listener.refuse();
      await new Promise<void>((resolve) => aedes.close(resolve));
      await Promise.all(listeners.map((listener) => listener.close()));
    },
  };
}

/** The library, told who may sign in, who may publish what, and that nobody may subscribe. */
async function createAedes(
  options: BrokerOptions,
  connections: Connections,
  counts: Counts,
  refusals: Refusals,
): Promise<Aedes> {
  const aedes = await Aedes.createBroker({
    authenticate: createSignIn({
      ...options,
      connections,
      onRefused(userName, reason) {
        counts.signInsRefused++;
        refusals.note(userName, reason, options.clock.nowMs());
      },
    }),
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
