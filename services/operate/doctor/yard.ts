import type { Records } from '../../records/port.ts';
import type { SeriesStore } from '../../series/port.ts';
import { bad, type Finding, good, warning } from './finding.ts';

const hourMs = 3_600_000;
/** A probe of which nothing is known may be silent this long, one whose interval is known three of them. */
const defaultSilenceMs = 2 * hourMs;
const waitingMs = 15 * 60_000;
const namedAtMost = 5;

/** Probes that were heard of too long ago, or never. */
export async function probeFindings(
  records: Pick<Records, 'yards' | 'probes'>,
  series: Pick<SeriesStore, 'channels' | 'latest'>,
  nowMs: number,
): Promise<Finding[]> {
  const channels = await series.channels();
  const latest = await series.latest(channels);
  const silent: string[] = [];
  let count = 0;
  for (const yard of await records.yards.list())
    for (const probe of await records.probes.list(yard.id)) {
      if (probe.revokedMs !== null) continue;
      count += 1;
      const own = channels.filter(
        (channel) => channel.startsWith(`${probe.id}_`) || channel.startsWith(`${probe.id}:`),
      );
      const lastMs = Math.max(
        ...own.map((channel) => latest.get(channel)?.last.timeMs ?? Number.NEGATIVE_INFINITY),
      );
      const allowedMs = Math.max(3 * (probe.expectedIntervalSeconds ?? 0) * 1000, defaultSilenceMs);
      if (nowMs - lastMs > allowedMs) silent.push(`${probe.label || probe.id} (${ago(lastMs, nowMs)})`);
    }
  if (count === 0) return [warning('probes', 'there are none yet', 'Make one under Manage, Probes.')];
  if (silent.length === 0) return [good('probes', `${count} of ${count} were heard of lately`)];
  const named = silent.slice(0, namedAtMost).join(', ');
  const more = silent.length > namedAtMost ? ` and ${silent.length - namedAtMost} more` : '';
  const doNext = 'See battery, link and wiring of each, and Manage, Set aside for what could not be read.';
  return [warning('probes', `${silent.length} of ${count} are silent: ${named}${more}`, doNext)];
}

function ago(lastMs: number, nowMs: number): string {
  if (!Number.isFinite(lastMs)) return 'never heard of';
  const hours = Math.round((nowMs - lastMs) / hourMs);
  return hours < 48 ? `last reading ${hours} h ago` : `last reading ${Math.round(hours / 24)} days ago`;
}

/** Texts that should have gone out. */
export async function messageFindings(
  records: Pick<Records, 'messages'>,
  nowMs: number,
  canText: boolean,
): Promise<Finding[]> {
  const { counts, oldestWaitingMs } = await records.messages.standing();
  const about = 'messages';
  const unsent = counts.waiting + counts.sending;
  if (!canText && unsent > 0)
    return [
      bad(
        about,
        `${unsent} wait, and no way to send texts is configured`,
        'Configure sms or modem (see README).',
      ),
    ];
  if (oldestWaitingMs !== null && nowMs - oldestWaitingMs > waitingMs) {
    const minutes = Math.round((nowMs - oldestWaitingMs) / 60_000);
    const doNext = 'See that the yard runs, and under Manage, Messages what the gateway answers.';
    return [bad(about, `${unsent} wait, the oldest for ${minutes} min`, doNext)];
  }
  if (!canText)
    return [warning(about, 'no way to send texts is configured', 'Configure sms or modem (see README).')];
  return [good(about, unsent === 0 ? 'none waits' : `${unsent} on their way`)];
}
