import type { Client } from 'aedes';
import type { Clock } from '../clock.ts';
import type { IngestPort } from '../ingest/port.ts';
import type { Connections } from './connections.ts';
import { publishProblem } from './topicPermission.ts';

export interface PublishingOptions {
  readonly ingest: IngestPort;
  readonly connections: Connections;
  readonly mappedFilters: readonly string[];
  readonly mostPayloadBytes: number;
  readonly clock: Clock;
  readonly onMessage: () => void;
  readonly onRefused: () => void;
}

/** The parts of a PUBLISH packet that matter here. */
interface Publication {
  readonly topic: string;
  readonly payload: string | Buffer;
  retain: boolean;
}

type AuthorizePublish = (
  client: Client | null,
  packet: Publication,
  done: (error?: Error | null) => void,
) => void;

/**
 * Stores a message before it may be acknowledged. The library sends PUBACK right after this callback and not after any
 * later one, so the commit has to happen here. An error closes the connection and the probe keeps its message.
 */
export function createAuthorizePublish(options: PublishingOptions): AuthorizePublish {
  return (client, packet, done) => {
    const probe = options.connections.probeOf(client);
    if (probe === null) {
      done(new Error('publish before sign-in'));
      return;
    }
    // Nobody may leave a message behind for later: a retained reading would look like a new one at every start.
    packet.retain = false;
    const payload = typeof packet.payload === 'string' ? Buffer.from(packet.payload) : packet.payload;
    const problem =
      publishProblem(probe, packet.topic, options.mappedFilters) ??
      payloadProblem(payload, options.mostPayloadBytes);
    const work =
      problem === null
        ? take(options, probe.probeId, packet.topic, payload)
        : refuse(options, probe.probeId, packet.topic, payload, problem);
    work.then(
      () => done(null),
      (error: unknown) => done(error instanceof Error ? error : new Error(String(error))),
    );
  };
}

function payloadProblem({ length }: Buffer, mostBytes: number): string | null {
  return length <= mostBytes ? null : `payload of ${length} bytes; allowed: at most ${mostBytes} bytes`;
}

function take(
  { ingest, clock, onMessage }: PublishingOptions,
  probeId: string,
  topic: string,
  payload: Buffer,
): Promise<unknown> {
  onMessage();
  return ingest.accept({
    topic,
    payload,
    signedInProbe: probeId,
    receivedMs: clock.nowMs(),
    retained: false,
  });
}

/** Keeps the message for a person to look at, then rejects with the reason. */
async function refuse(
  { ingest, onRefused }: PublishingOptions,
  probe: string,
  topic: string,
  payload: Buffer,
  reason: string,
): Promise<never> {
  onRefused();
  await ingest.turnAway({ topic, probe, reason, payloadStart: payload, payloadBytes: payload.length });
  throw new Error(reason);
}
