import { applyIntervention, type Intervention } from '../../shared/compost/pileModel/interventions.ts';
import type { Scenario } from '../../shared/compost/pileModel/scenarios.ts';
import { prepareSite } from '../../shared/compost/pileModel/site.ts';
import { createPileState, moistureOf } from '../../shared/compost/pileModel/state.ts';
import { advance, longestStepSeconds } from '../../shared/compost/pileModel/step.ts';
import type { WeatherAt } from '../../shared/compost/pileModel/weather.ts';
import { core, edge, shoulder } from '../../shared/compost/pileModel/zones.ts';
import type { Position } from '../../shared/yard/yard.ts';

/** What a probe in the pile could measure at one moment. */
export interface PileMoment {
  readonly celsiusAt: Readonly<Record<Position, number>>;
  readonly moistureFraction: number;
}

/** A pile that really heats and dries, moved on in time by whoever holds it. */
export interface SimulatedPile {
  /** Moves on to an instant (never back) and says what it is like then. */
  advanceTo(timeMs: number): PileMoment;
}

/** Builds a scenario's pile at `builtMs`; `weatherAt` counts seconds from then. */
export function createSimulatedPile(
  scenario: Scenario,
  builtMs: number,
  weatherAt: WeatherAt,
): SimulatedPile {
  const { parameters } = scenario;
  const site = prepareSite(parameters);
  const state = createPileState(parameters);
  const waiting: Intervention[] = [...scenario.interventions].sort(
    (one, other) => one.atSeconds - other.atSeconds,
  );

  function moveOn(seconds: number): void {
    const weather = weatherAt(state.elapsedSeconds);
    while (waiting[0] && waiting[0].atSeconds <= state.elapsedSeconds) {
      applyIntervention(state, parameters, waiting.shift()!, weather);
    }
    advance(state, site, weather, seconds);
  }

  return {
    advanceTo(timeMs) {
      const target = (timeMs - builtMs) / 1000;
      while (state.elapsedSeconds < target - 0.5)
        moveOn(Math.min(longestStepSeconds, target - state.elapsedSeconds));
      const outside = weatherAt(state.elapsedSeconds);
      const [coreCelsius, shoulderCelsius, edgeCelsius] = [core, shoulder, edge].map(
        (zone) => state.celsius[zone]!,
      );
      return {
        celsiusAt: {
          core: coreCelsius!,
          shoulder: shoulderCelsius!,
          edge: edgeCelsius!,
          base: (edgeCelsius! + outside.groundCelsius) / 2,
          air: outside.airCelsius,
        },
        moistureFraction: moistureOf(state, shoulder),
      };
    },
  };
}
