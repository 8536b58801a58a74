import type { ChannelTrack } from '../../rules/channelTrack.ts';
import type { PileWindow } from '../../rules/pileWindow.ts';
import { gridSamples } from '../../rules/timeGrid.ts';
import type { PileBuild } from '../../yard/build.ts';
import type { DiagnosisFacts, MixFacts } from './facts.ts';

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

/** What a pile's window tells about causes, as it stands at its own instant. Rain is not in a window; size and mix are known where somebody wrote them down. */
export function factsFromWindow(window: PileWindow): DiagnosisFacts {
  const { view, nowMs, facts } = window;
  const { build } = facts.pile;
  const fresh = (track: ChannelTrack) => nowMs - track.lastGoodMs <= track.placed.maxAgeMinutes * 60_000;
  const cores = window.core.filter(fresh).map((track) => track.lastGood);
  const edges = window.heat.filter((track) => track.placed.placement.position === 'edge' && fresh(track));
  return {
    nowMs,
    method: facts.pile.method,
    stage: view.stage,
    startedMs: facts.pile.startedMs,
    volumeM3: build?.volumeM3 ?? null,
    leastSideMetres: build?.leastSideMetres ?? null,
    core: gridSamples(window.coreHours, nowMs - 30 * dayMs, nowMs),
    air: gridSamples(window.airHours, nowMs - 30 * dayMs, nowMs),
    edgeCelsius: edges.length === 0 ? null : Math.min(...edges.map((track) => track.lastGood)),
    otherCoresCelsius: cores.sort((one, other) => other - one).slice(1),
    moistureFraction: view.moistureFraction,
    hottestOfDayCelsius: view.hottestOfDayCelsius,
    peakCelsius: view.peakCelsius,
    degreeHoursAbove40: view.degreeHoursAbove40,
    estimatedMoisture: view.estimatedMoisture,
    materialLeft: view.materialLeft,
    mix: build == null ? null : mixOf(build),
    rainMillimetresWeek: null,
    hasDoubtfulProbe: isDoubtful([...window.heat, ...window.moisture], nowMs),
    journal: facts.journal,
  };
}

function mixOf({ carbonToNitrogen, moistureFraction, freeAirSpaceFraction }: PileBuild): MixFacts {
  return { carbonToNitrogen, moistureFraction, freeAirSpaceFraction };
}

/** Whether a channel's newest readings of the last two days were not good; null when nothing was heard at all. */
function isDoubtful(tracks: readonly ChannelTrack[], nowMs: number): boolean | null {
  const heard = tracks.filter((track) => nowMs - track.lastMs <= 2 * dayMs);
  return heard.length === 0 ? null : heard.some((track) => track.lastMs - track.lastGoodMs > hourMs);
}
