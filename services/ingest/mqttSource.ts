import { readFileSync } from 'node:fs';
import { connect, type IClientOptions, type IPublishPacket, type MqttClient } from 'mqtt';
import type { BaseLogger } from 'pino';
import type { Clock } from '../clock.ts';
import { type AcknowledgementLine, createAcknowledgementLine } from './acknowledgementLine.ts';
import type { IngestPort } from './port.ts';
import { readingsFilter } from './topicRoute.ts';

const sessionDays = 30;
/** Messages taken in and not yet acknowledged; beyond it the connection is not read, and TCP slows the broker down. */
const mostWaiting = 2_000;
const reconnectMilliseconds = 2_000;

export interface MqttSourceOptions {
  readonly config: {
    readonly url: string;
    readonly user: string | null;
    readonly password: string | null;
    readonly protocol: '3.1.1' | '5';
    /** The session at the broker is kept under it; two programs must not share one. */
    readonly clientId: string;
    /** For TLS: who vouches for the broker (null: whom the machine trusts), and by what the broker knows us. */
    readonly caFile?: string | null;
    readonly certificateFile?: string | null;
    readonly keyFile?: string | null;
    /** Pause between attempts to connect; default 2000. */
    readonly reconnectMilliseconds?: number;
  };
  /** Topic filters of mapped senders, subscribed to beside the readings of probes. */
  readonly mappedFilters: readonly string[];
  /** Name under which sessions share the readings (MQTT 5 section 4.8.2); null or left out: this one takes them all. */
  readonly sharedGroup?: string | null;
  readonly ingest: IngestPort;
  readonly clock: Clock;
  readonly logger: Pick<BaseLogger, 'info' | 'warn' | 'error'>;
}

export interface MqttSource {
  isConnected(): boolean;
  /** Takes no more messages, acknowledges what is durable, disconnects. The session stays at the broker. */
  stop(): Promise<void>;
}

/**
 * Readings from a broker of the yard's own. The session is persistent: what comes while this program is away waits there.
 *
 * The client library handles packets one at a time and sends each acknowledgement from within that queue, so waiting for
 * a commit there would mean one message per commit. Instead `handleMessage` answers at once with an error, at which the
 * library sends no acknowledgement and goes on to the next packet; the acknowledgement follows after the group commit,
 * written to the very connection the message came on, in order of arrival. After a storage fault the connection is
 * closed and the broker sends everything unacknowledged again on the next one: MQTT has no "not now" for one message.
 */
export function startMqttSource(options: MqttSourceOptions): MqttSource {
  const { config, ingest, clock, logger } = options;
  const client = connect(config.url, clientOptions(config));
  const filters = filtersOf(options);
  let current: { readonly stream: MqttClient['stream']; readonly line: AcknowledgementLine } | null = null;
  let isStopping = false;

  /** The line of the connection as it is now. Messages may come before the library tells that it is connected. */
  function currentLine(): AcknowledgementLine {
    const { stream } = client;
    if (current?.stream !== stream) current = { stream, line: makeLine(stream) };
    return current.line;
  }

  function makeLine(stream: MqttClient['stream']): AcknowledgementLine {
    return createAcknowledgementLine({
      write: (packets) => {
        if (!stream.destroyed && stream.writable) stream.write(packets);
      },
      onFault: (error) => {
        logger.error({ err: error }, 'readings could not be stored: leaving the broker, which keeps them');
        stream.destroy();
      },
    });
  }

  client.handleMessage = (packet, callback) => {
    // Neither taken nor acknowledged: it comes again in the next session.
    if (isStopping) {
      callback(acknowledgedLater);
      return;
    }
    const line = currentLine();
    line.take(packet.qos === 0 ? null : packet.messageId!, ingest.accept(messageOf(packet, clock)));
    const goOn = () => callback(acknowledgedLater);
    if (line.waiting() < mostWaiting) goOn();
    else void line.drained().then(goOn);
  };
  client.on('connect', ({ sessionPresent }) => {
    logger.info({ sessionPresent }, 'connected to the MQTT broker');
    if (sessionPresent) leaveOthers(client, options);
    subscribe(client, filters, logger);
  });
  client.on('error', (error) => logger.warn({ err: error }, 'MQTT broker'));
  client.on('close', () => logger.warn('connection to the MQTT broker ended'));

  return {
    isConnected: () => client.connected,
    async stop() {
      isStopping = true;
      await current?.line.drained();
      await client.endAsync(false);
    },
  };
}

function filtersOf({ mappedFilters, sharedGroup = null }: MqttSourceOptions): string[] {
  const filters = [readingsFilter, ...mappedFilters];
  return sharedGroup === null ? filters : filters.map((filter) => `$share/${sharedGroup}/${filter}`);
}

/** A session made when readings were shared, or not yet shared, would go on taking all of them, or its part. */
function leaveOthers(client: MqttClient, options: MqttSourceOptions): void {
  const { sharedGroup = null, config } = options;
  if (config.protocol !== '5') return;
  const before = sharedGroup === null ? config.clientId : null;
  client.unsubscribe(filtersOf({ ...options, sharedGroup: before }), () => {});
}

const acknowledgedLater = new Error('acknowledged after the commit');

function clientOptions(config: MqttSourceOptions['config']): IClientOptions {
  const isFive = config.protocol === '5';
  return {
    clientId: config.clientId,
    ...(config.user !== null && { username: config.user }),
    ...(config.password !== null && { password: config.password }),
    ...certificates(config),
    clean: false,
    reconnectPeriod: config.reconnectMilliseconds ?? reconnectMilliseconds,
    // A broker that turns us away may let us in when a person has set it right, or when it is up altogether.
    reconnectOnConnackError: true,
    // Subscribed to by ourselves on every connection; the library would do it only where the session was lost.
    resubscribe: false,
    protocolVersion: isFive ? 5 : 4,
    ...(isFive && {
      properties: { sessionExpiryInterval: sessionDays * 86_400, receiveMaximum: mostWaiting },
    }),
  };
}

/** Read once: a renewed certificate counts from the next start. The broker's own is always checked. */
function certificates(config: MqttSourceOptions['config']): Pick<IClientOptions, 'ca' | 'cert' | 'key'> {
  const { caFile = null, certificateFile = null, keyFile = null } = config;
  return {
    ...(caFile !== null && { ca: readFileSync(caFile) }),
    ...(certificateFile !== null && { cert: readFileSync(certificateFile) }),
    ...(keyFile !== null && { key: readFileSync(keyFile) }),
  };
}

/**
 * On every connection, because the mappings may have changed since the session was made. Retained messages: with MQTT 5
 * only for a subscription that is new; with 3.1.1 they come each time, and the store drops what it has.
 */
function subscribe(
  client: MqttClient,
  filters: readonly string[],
  logger: MqttSourceOptions['logger'],
): void {
  const rh = client.options.protocolVersion === 5 ? { rh: 1 } : {};
  client.subscribe([...filters], { qos: 1, ...rh }, (error) => {
    if (error) logger.error({ err: error }, `MQTT broker refuses the subscription to ${filters.join(', ')}`);
  });
}

function messageOf(packet: IPublishPacket, clock: Clock) {
  const { topic, payload, retain } = packet;
  return {
    topic,
    payload: typeof payload === 'string' ? Buffer.from(payload) : payload,
    signedInProbe: null,
    receivedMs: clock.nowMs(),
    retained: retain,
  };
}
