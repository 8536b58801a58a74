import type { Client } from 'aedes';
import { describe, expect, it } from 'vitest';
import type { AcceptOutcome, IngestPort } from '../ingest/port.ts';
import { createConnections } from './connections.ts';
import { createAuthorizePublish } from './publishing.ts';

const client = {} as Client;
const probe = { probeId: 'urn:dev:example:a', yardId: 'yard' };
const topic = 'tilth/yard/urn:dev:example:a/readings';

function publish(ingest: Partial<IngestPort>, change: { topic?: string; payload?: Buffer } = {}) {
  const connections = createConnections();
  connections.signedIn(client, probe);
  const authorize = createAuthorizePublish({
    ingest: { accept: () => Promise.reject(new Error('unused')), turnAway: async () => {}, ...ingest },
    connections,
    mappedFilters: [],
    mostPayloadBytes: 10,
    clock: { nowMs: () => 5 },
    onMessage: () => {},
    onRefused: () => {},
  });
  const packet = { topic, payload: Buffer.from('[]'), retain: true, ...change };
  const answer = new Promise<Error | null | undefined>((done) => authorize(client, packet, done));
  return { packet, answer };
}

describe('authorizing a publish', () => {
  it('answers only when the message is durable', async () => {
    let makeDurable: (outcome: AcceptOutcome) => void = () => {};
    const { answer } = publish({ accept: () => new Promise((resolve) => (makeDurable = resolve)) });
    const early = await Promise.race([answer, new Promise((resolve) => setImmediate(resolve, 'waiting'))]);
    expect(early).toBe('waiting');
    makeDurable({ kind: 'quarantined', reason: 'x' });
    expect(await answer).toBeNull();
  });

  it('answers with an error, so without acknowledgement, when it could not be stored', async () => {
    const { answer } = publish({ accept: () => Promise.reject(new Error('disk full')) });
    expect((await answer)?.message).toBe('disk full');
  });

  it('strips the retain flag, so that no reading is left behind for later', async () => {
    const accept: IngestPort['accept'] = async () => ({ kind: 'quarantined', reason: 'x' });
    const { packet, answer } = publish({ accept });
    await answer;
    expect(packet.retain).toBe(false);
  });

  it('keeps a payload that is too large for a person to look at, and refuses it', async () => {
    const kept: string[] = [];
    const turnAway: IngestPort['turnAway'] = async ({ reason }) => void kept.push(reason);
    const { answer } = publish({ turnAway }, { payload: Buffer.alloc(11) });
    expect((await answer)?.message).toBe('payload of 11 bytes; allowed: at most 10 bytes');
    expect(kept).toHaveLength(1);
  });

  it('refuses to publish for a connection that never signed in', async () => {
    const authorize = createAuthorizePublish({
      connections: createConnections(),
    } as Parameters<typeof createAuthorizePublish>[0]);
    const error = await new Promise<Error | null | undefined>((done) =>
      authorize(client, { topic, payload: Buffer.alloc(0), retain: false }, done),
    );
    expect(error?.message).toMatch(/before sign-in/);
  });
});
