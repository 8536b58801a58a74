import type { PileView } from './pileView.ts';
import type { PileStatus } from './status.ts';

/** What screens show of a pile, from its view at the instant of assessment. */
export function statusOf(view: PileView): PileStatus {
  const { sanitisation } = view;
  return {
    pileId: view.pile.id,
    assessedMs: view.nowMs,
    stage: view.stage,
    coreCelsius: view.coreCelsius,
    coreTimeMs: view.coreTimeMs,
    trendCelsiusPerHour: view.trendCelsiusPerHour(6),
    airCelsius: view.airCelsius,
    moistureFraction: view.moistureFraction,
    moistureTimeMs: view.moistureTimeMs,
    hoursAbove55: view.hoursAbove55,
    sanitisationProgress: sanitisation?.progress ?? null,
    sanitisationOutcome: sanitisation?.outcome ?? null,
    peakCelsius: view.peakCelsius,
  };
}
