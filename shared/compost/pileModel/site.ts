import type { PileParameters } from './parameters.ts';
import { shapeFigures } from './shape.ts';
import { emptyLedger, type Ledger } from './state.ts';
import { type ZoneGeometry, zoneCount, zoneGeometry } from './zones.ts';

/** Working room of one step, reused so that a year of steps makes no garbage. One entry per zone. */
export interface Scratch {
  readonly volumeM3: Float64Array;
  readonly moistureFraction: Float64Array;
  readonly poreFraction: Float64Array;
  readonly conductivity: Float64Array;
  readonly humidityRatio: Float64Array;
  /** Enthalpy of the zone's air, J per kg dry air. */
  readonly airEnthalpy: Float64Array;
  /** Dry air rising out of each zone's own column, kg/s. */
  readonly columnAir: Float64Array;
  /** Dry air passing through each zone on its way inward or out, kg/s. */
  readonly throughAir: Float64Array;
  readonly fastRate: Float64Array;
  readonly slowRate: Float64Array;
  readonly chemicalRate: Float64Array;
  /** Net gain of each zone, W and kg/s of water. */
  readonly power: Float64Array;
  readonly waterGain: Float64Array;
  /** W/K of everything that pulls a zone's temperature back: sets the longest safe step. */
  readonly stiffness: Float64Array;
}

/** Parameters with the geometry and working room that follow from them. */
export interface Site {
  readonly parameters: PileParameters;
  readonly geometry: ZoneGeometry;
  readonly scratch: Scratch;
  /** What the ledger gains per second in the step being worked out. */
  readonly rates: Ledger;
}

/** Prepares a pile's parameters for stepping. */
export function prepareSite(parameters: PileParameters): Site {
  const room = () => new Float64Array(zoneCount);
  return {
    parameters,
    geometry: zoneGeometry(shapeFigures(parameters.shape)),
    rates: emptyLedger(),
    scratch: {
      volumeM3: room(),
      moistureFraction: room(),
      poreFraction: room(),
      conductivity: room(),
      humidityRatio: room(),
      airEnthalpy: room(),
      columnAir: room(),
      throughAir: room(),
      fastRate: room(),
      slowRate: room(),
      chemicalRate: room(),
      power: room(),
      waterGain: room(),
      stiffness: room(),
    },
  };
}
