import { judgeReading } from '../../shared/readings/quality.ts';
import type { NeighbourChannel } from '../../shared/readings/qualityInput.ts';
import type { Reading } from '../../shared/readings/reading.ts';
import type { SensorDescription } from '../../shared/readings/sensorDescription.ts';
import type { ChannelName } from '../../shared/yard/yard.ts';
import type { Candidate } from './candidate.ts';
import { addToHistory, type Histories, type History, readingAt } from './histories.ts';
import type { ReadMessage } from './readMessage.ts';
import type { YardKnowledge } from './yardKnowledge.ts';

/** What a channel's readings are judged against. */
interface Evidence {
  readonly history: History;
  readonly neighbours: readonly NeighbourChannel[];
  readonly pairs: readonly NeighbourChannel[];
  readonly sensor: SensorDescription;
}

/**
 * The candidates of one message as judged readings. One whose channel and time are known already is given back as it was
 * judged the first time: the store will drop it, and judging it against itself would prove nothing.
 */
export async function judgeCandidates(
  { candidates, yard, message }: ReadMessage,
  histories: Histories,
): Promise<Reading[]> {
  if (yard === null || candidates.length === 0) return [];
  const nowMs = message.receivedMs;
  const span = { fromMs: candidates[0]!.timeMs, toMs: candidates.at(-1)!.timeMs };
  const evidence = await gatherEvidence(candidates, yard, (channel) =>
    histories.around(channel, span, nowMs),
  );
  return candidates.map((candidate) => {
    const { history, ...around } = evidence.get(candidate.channel)!;
    const known = readingAt(history, candidate.timeMs);
    if (known !== null) return known;
    const { channel, quantity, timeMs, rawValue, value } = candidate;
    const handledSinceMs = yard.handledSince(channel, timeMs);
    const input = { candidate, quantity, history: history.readings, nowMs, handledSinceMs, ...around };
    const reading = { channel, timeMs, rawValue, value, ...judgeReading(input) };
    addToHistory(history, reading);
    return reading;
  });
}

async function gatherEvidence(
  candidates: readonly Candidate[],
  yard: YardKnowledge,
  around: (channel: ChannelName) => Promise<History>,
): Promise<Map<ChannelName, Evidence>> {
  const evidence = new Map<ChannelName, Evidence>();
  const withHistory = async (channel: ChannelName): Promise<NeighbourChannel> => ({
    channel,
    history: (await around(channel)).readings,
  });
  for (const { channel, quantity, timeMs } of candidates) {
    if (evidence.has(channel)) continue;
    const { placement, calibration } = yard.channel(channel, timeMs);
    const companions = placement && yard.companions(placement, timeMs);
    evidence.set(channel, {
      history: await around(channel),
      neighbours: await Promise.all((companions?.neighbours ?? []).map(withHistory)),
      pairs: await Promise.all((companions?.pairs ?? []).map(withHistory)),
      sensor: yard.sensor(quantity, calibration),
    });
  }
  return evidence;
}
