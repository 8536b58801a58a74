import type { Evidence } from '../alarms/alarm.ts';
import type { QualityReason } from '../readings/reading.ts';
import { entry } from './pileEvidence.ts';
import { type ProbeView, placesInDoubt } from './probeWindow.ts';

/** Which placed channels are in doubt for these reasons, for how long, and what they say. */
export function doubtEvidence(view: ProbeView, reasons: readonly QualityReason[]): Evidence[] {
  return placesInDoubt(view, reasons).flatMap((place) => {
    const channel = view.channels.get(place.channel)!;
    const unit = place.quantity === 'temperature' ? 'C' : '';
    const lastGood = Number.isNaN(channel.lastGood) ? null : channel.lastGood;
    return [
      ...entry(`${place.position}: doubtful for`, (view.nowMs - channel.doubtSinceMs!) / 60_000, 'min'),
      ...entry(`${place.position}: says`, channel.doubtful, unit),
      ...entry(`${place.position}: last good value`, lastGood, unit),
    ];
  });
}
