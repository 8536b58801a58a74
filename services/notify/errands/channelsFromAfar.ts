import { type ChannelKind, newId, type Records } from '../../records/port.ts';
import type { ChannelDeskPort, ChannelStanding } from '../port.ts';
import { SendersAway } from '../port.ts';
import { type ChannelsTold, checkAnswerSchema, testAnswerSchema } from './answers.ts';

/** Longest wait until somebody who sends takes an errand, and until it is answered: a modem may dial for a while. */
const untilTakenMs = 10_000;
const untilAnsweredMs = 60_000;
const lookEveryMs = 250;

export interface AfarOptions {
  readonly records: Pick<Records, 'errands'>;
  /** What living processes that send have told of their channels. */
  readonly told: () => readonly ChannelsTold[];
  /** An errand waits: look soon. */
  readonly tell: () => void;
  readonly takenWithinMs?: number;
  readonly answeredWithinMs?: number;
}

/**
 * The channels as a process sees them that sends nothing: how they stand is heard with the signs of life of those that
 * do; looking at one and testing it is written down, done once by one of them, and its answer waited for.
 */
export function channelsFromAfar(options: AfarOptions): ChannelDeskPort {
  const { records, told, tell } = options;

  async function ask(channel: ChannelKind, address: string | null): Promise<unknown> {
    const id = newId();
    await records.errands.add({ id, channel, address, createdMs: Date.now() });
    tell();
    const startedMs = performance.now();
    const isLate = (afterMs: number) => performance.now() - startedMs > afterMs;
    let mayBeFree = true;
    for (;;) {
      const answer = await records.errands.takeAnswer(id);
      if (answer !== null) return JSON.parse(answer);
      if (mayBeFree && isLate(options.takenWithinMs ?? untilTakenMs)) {
        if (await records.errands.takeBack(id)) throw new SendersAway('nothing was sent');
        mayBeFree = false;
      }
      if (isLate(options.answeredWithinMs ?? untilAnsweredMs)) throw new SendersAway('it may still be sent');
      await new Promise((resolve) => setTimeout(resolve, lookEveryMs));
    }
  }

  return {
    isKnown: () => told().length > 0,
    kinds: () => [...new Set(told().flatMap(({ kinds }) => kinds))],
    pushKey: () => told().find(({ pushKey }) => pushKey !== null)?.pushKey ?? null,
    standings: () => newestOfEach(told().flatMap(({ standings }) => standings)),
    check: async (kind) => checkAnswerSchema.parse(await ask(kind, null)),
    async test(kind, address) {
      const answer = testAnswerSchema.parse(await ask(kind, address));
      if (answer.kind === 'sent') return answer;
      const { tellOwner, ...outcome } = answer;
      return tellOwner ? { ...outcome, tellOwner } : outcome;
    },
  };
}

/** Several processes may have used a channel: whoever did last knows best. */
function newestOfEach(standings: readonly ChannelStanding[]): ChannelStanding[] {
  const newest = new Map<ChannelKind, ChannelStanding>();
  for (const standing of standings.toSorted((a, b) => a.atMs - b.atMs))
    newest.set(standing.channel, standing);
  return [...newest.values()];
}
