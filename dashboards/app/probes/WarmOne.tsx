import { useState } from 'preact/hooks';
import type { PileView, PlacementView, ProbeView, RecentView } from '../../../shared/api/types.ts';
import { justMoved, type Moved } from '../../../shared/readings/justMoved.ts';
import { display, temperatureChange } from '../../common/format.ts';
import { usePolled } from '../usePolled.ts';
import { PlaceForm } from './PlaceForm.tsx';
import { shownValue } from './shownValue.ts';
import { text } from './words.ts';

type Channel = RecentView['channels'][number];

interface WarmOneProps {
  readonly probes: readonly ProbeView[];
  readonly piles: readonly PileView[];
  readonly placements: readonly PlacementView[];
  readonly onPlaced: () => Promise<void>;
}

/** Finds out which sensor is which by warming one in a hand, then asks where it will stand. */
export function WarmOne({ probes, piles, placements, onPlaced }: WarmOneProps) {
  const recent = usePolled<RecentView>('/api/channels/recent?minutes=15');
  const [sinceMs, setSince] = useState<number | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  if (recent.data === null)
    return recent.failure ? <p class="wrong">{recent.failure}</p> : <p>{text.waiting}</p>;
  const { channels, nowMs } = recent.data;
  const standing = new Set(placements.filter(({ toMs }) => toMs === null).map(({ channel }) => channel));
  const unplaced = channels.filter(({ channel, points }) => !standing.has(channel) && points.length > 0);
  const warmable = unplaced.filter(({ quantity }) => quantity === 'temperature');
  const moved: Moved = sinceMs === null ? { kind: 'none' } : justMoved(warmable.map(trusted), sinceMs);
  const found = unplaced.find(
    ({ channel }) => channel === (chosen ?? (moved.kind === 'one' ? moved.channel : null)),
  );
  if (unplaced.length === 0) return <p>{text.nothingToPlace}</p>;
  const nameOf = (channel: string) => channelName(channel, probes);
  const done = async () => {
    setChosen(null);
    setSince(null);
    await onPlaced();
  };
  return (
    <>
      {warmable.length > 1 && !found && (
        <>
          <p>{text.warmHow}</p>
          <button type="button" onClick={() => setSince(nowMs)}>
            {sinceMs === null ? text.warmStart : text.warmAgain}
          </button>
        </>
      )}
      <p class="watch" role="status">
        {sinceMs !== null &&
          !found &&
          (moved.kind === 'several' ? severalWords(moved, nameOf) : text.warmWatching)}
        {moved.kind === 'one' && chosen === null && (
          <strong>
            {(moved.changeCelsius > 0 ? text.warmRose : text.warmFell)(
              nameOf(moved.channel),
              `${temperatureChange(Math.abs(moved.changeCelsius))} ${display.value.unit}`,
            )}
          </strong>
        )}
      </p>
      {!found && (
        <ul class="live-channels" aria-label={text.warmChoose}>
          {unplaced.map((one) => (
            <li key={one.channel}>
              <button type="button" class="quiet" onClick={() => setChosen(one.channel)}>
                <span class="live-name">{nameOf(one.channel)}</span>
                <strong>{shownValue(one.points.at(-1)!.value, one.quantity)}</strong>
                <span class="hint">{changeWords(one, sinceMs)}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {found && (
        <section class="card">
          <h3>{text.placeIt(nameOf(found.channel))}</h3>
          <p class="hint">{text.hotStem}</p>
          <PlaceForm
            key={found.channel}
            channel={found.channel}
            quantity={found.quantity}
            piles={piles}
            onDone={done}
          />
          <button
            type="button"
            class="quiet"
            onClick={() => {
              setChosen(null);
              setSince(nowMs);
            }}
          >
            {text.warmAgain}
          </button>
        </section>
      )}
    </>
  );
}

/** What a sensor could not have measured says nothing about whose hand it is in. */
function trusted({ channel, points }: Channel) {
  return { channel, points: points.filter(({ quality }) => quality !== 'bad') };
}

const severalWords = ({ channels }: Extract<Moved, { kind: 'several' }>, nameOf: (name: string) => string) =>
  text.warmSeveral(channels.map(nameOf).join(', '));

function channelName(channel: string, probes: readonly ProbeView[]): string {
  const probe = probes.find(({ id }) => channel.startsWith(id));
  return probe === undefined ? channel : `${probe.label} ${channel.slice(probe.id.length + 1)}`;
}

/** How far it is from where it was when the watch began. */
function changeWords({ points, quantity }: Channel, sinceMs: number | null): string {
  if (sinceMs === null || quantity !== 'temperature') return '';
  const before = points.findLast(({ timeMs }) => timeMs <= sinceMs) ?? points[0]!;
  const change = points.at(-1)!.value - before.value;
  if (Math.abs(change) < 0.1) return text.noChange;
  return `${change > 0 ? '+' : '\u2212'}${temperatureChange(Math.abs(change))} ${display.value.unit}`;
}
