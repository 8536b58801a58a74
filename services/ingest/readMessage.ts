import { applyMapping, MappingError, type MappingRule } from '../../shared/readings/mapping.ts';
import { firstAbsoluteSecond } from '../../shared/senml/resolveTime.ts';
import { SenmlError } from '../../shared/senml/senmlError.ts';
import { type Candidate, type ClaimedValue, makeCandidate } from './candidate.ts';
import { decodePack } from './decodePack.ts';
import type { IncomingMessage } from './port.ts';
import { routeOf } from './topicRoute.ts';
import type { KnowledgeCache, YardKnowledge } from './yardKnowledge.ts';

/** The embedded broker refuses far smaller ones at the door; an external broker may pass on anything. */
const mostPayloadBytes = 1024 * 1024;

/** A message taken apart: what may become readings, and what is wrong with the rest. */
export interface ReadMessage {
  readonly message: IncomingMessage;
  readonly probeId: string | null;
  readonly yard: YardKnowledge | null;
  /** In time order. */
  readonly candidates: readonly Candidate[];
  readonly refused: readonly string[];
  /** Records that are no measurement. */
  readonly ignored: number;
  /** The longest wait until the probe's next message that it promises (SenML `ut`); null when it does not. */
  readonly promisedSeconds: number | null;
}

interface Claims {
  readonly probeId: string;
  /** Null when a mapped message says nothing about its yard: then the probe's own counts. */
  readonly yardId: string | null;
  readonly values: readonly ClaimedValue[];
  readonly refused: readonly string[];
  readonly ignored: number;
  readonly promisedSeconds: number | null;
}

/** Decodes a message and checks it against what is known of its sender. What is wrong is told, never thrown. */
export async function readMessage(
  message: IncomingMessage,
  knowledge: KnowledgeCache,
  mappings: readonly MappingRule[],
): Promise<ReadMessage> {
  const claims = claimsOf(message, mappings);
  if (typeof claims === 'string') return nothing(message, message.signedInProbe, claims);
  const { probeId, yardId } = claims;
  if (message.signedInProbe !== null && message.signedInProbe !== probeId) {
    return nothing(message, message.signedInProbe, `probe ${message.signedInProbe} sent as ${probeId}`);
  }
  const probe = await knowledge.probe(probeId);
  if (probe === null) return nothing(message, probeId, `unknown probe ${probeId}: add it in the app first`);
  if (probe.revokedMs !== null) return nothing(message, probeId, `probe ${probeId} was revoked`);
  if (yardId !== null && yardId !== probe.yardId) {
    return nothing(message, probeId, `probe ${probeId} does not belong to yard ${yardId}`);
  }
  return withCandidates(message, claims, await knowledge.yard(probe.yardId));
}

function withCandidates(message: IncomingMessage, claims: Claims, yard: YardKnowledge): ReadMessage {
  const { probeId, ignored, promisedSeconds } = claims;
  const candidates: Candidate[] = [];
  const refused = [...claims.refused];
  for (const value of claims.values) {
    const result = makeCandidate(value, probeId, message.receivedMs, yard.channel(value.name, value.timeMs));
    if (result.ok) candidates.push(result.candidate);
    else refused.push(result.reason);
  }
  return { message, probeId, yard, candidates, refused, ignored, promisedSeconds };
}

/** The values a message claims, or why there are none. */
function claimsOf(message: IncomingMessage, mappings: readonly MappingRule[]): Claims | string {
  const route = routeOf(message.topic, mappings);
  if (route === null) {
    return `nobody reads topic "${message.topic}"; readings go to tilth/<yard>/<probe>/readings`;
  }
  const { length } = message.payload;
  if (length > mostPayloadBytes)
    return `payload of ${length} bytes; allowed: at most ${mostPayloadBytes} bytes`;
  try {
    if (route.kind === 'mapped') return mappedClaims(message, route.rule);
    return { ...senmlClaims(message), probeId: route.probeId, yardId: route.yardId };
  } catch (error) {
    if (error instanceof SenmlError || error instanceof MappingError) return error.message;
    throw error;
  }
}

/**
 * A retained message may be months old, so a time relative to now means nothing in it. Resolving against the epoch tells
 * the two kinds apart: relative times come out below the first absolute one.
 */
function senmlClaims({ payload, receivedMs, retained }: IncomingMessage): Omit<Claims, 'probeId' | 'yardId'> {
  const { records, refused } = decodePack(payload, retained ? 0 : receivedMs);
  const dated = retained ? records.filter(({ timeMs }) => timeMs >= firstAbsoluteSecond * 1000) : records;
  const undated = records.length - dated.length;
  const values = dated.flatMap((record) => (record.kind === 'number' ? [record] : []));
  const promises = records.flatMap(({ updateWithinSeconds }) => updateWithinSeconds ?? []);
  return {
    values,
    refused:
      undated === 0
        ? refused
        : [...refused, `${undated} records of a retained message have no absolute time`],
    ignored: dated.length - values.length,
    promisedSeconds: promises.length === 0 ? null : Math.max(...promises),
  };
}

function mappedClaims(
  { topic, payload, receivedMs, retained }: IncomingMessage,
  rule: MappingRule,
): Claims | string {
  const records = applyMapping(rule, topic, payload);
  if (retained && records.some(({ timeMs }) => timeMs === null)) {
    return 'a retained message that does not say when it was measured';
  }
  const values = records.map((record) => ({ ...record, timeMs: record.timeMs ?? receivedMs }));
  return { probeId: records[0]!.probe, yardId: null, values, refused: [], ignored: 0, promisedSeconds: null };
}

function nothing(message: IncomingMessage, probeId: string | null, reason: string): ReadMessage {
  return {
    message,
    probeId,
    yard: null,
    candidates: [],
    refused: [reason],
    ignored: 0,
    promisedSeconds: null,
  };
}
