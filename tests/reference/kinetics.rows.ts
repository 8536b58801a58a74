import { expect } from 'vitest';
import {
  haugRatePerDay,
  remainingFraction,
  twoPoolRemainingFraction,
} from '../../shared/compost/kinetics/decay.ts';
import { heatFigures, heatFromOxygenMegajoules } from '../../shared/compost/kinetics/heatRelease.ts';
import { biodegradableFraction } from '../../shared/compost/kinetics/lignin.ts';
import {
  freeAirSpaceFactor,
  moistureFactor,
  oxygenFactor,
  oxygenFactorOfAir,
} from '../../shared/compost/kinetics/limitingFactors.ts';
import { oxidationPerKilogram, substrates } from '../../shared/compost/kinetics/stoichiometry.ts';
import {
  ctmiTemperatureFactor,
  haugPeakCelsius,
  haugTemperatureFactor,
  haugZeroCelsius,
  roundedCardinalTemperatures,
} from '../../shared/compost/kinetics/temperatureFactor.ts';
import type { CheckRow } from './checkRow.ts';

/** Expects a value within a relative tolerance, as the tables of the reference pack state it. */
function near(actual: number, expected: number, relative: number): void {
  expect(Math.abs(actual - expected), `${actual} should be ${expected}`).toBeLessThanOrEqual(
    Math.abs(expected) * relative + 1e-12,
  );
}

/** Figures printed to four digits can be off by half of the last. */
const printed = 6e-4;

/** T; Haug factor; share of its maximum; CTMI 5/58.6/71.6; CTMI 5/58/72 (section 4.2). */
const temperatureTable = [
  [20, 0.9995, 0.05574, 0.1229, 0.1305],
  [30, 1.892, 0.1055, 0.3264, 0.3435],
  [40, 3.568, 0.199, 0.5968, 0.6205],
  [50, 6.655, 0.3711, 0.8736, 0.8923],
  [55, 8.979, 0.5008, 0.9725, 0.9815],
  [58, 10.66, 0.5946, 0.9991, 1],
  [60, 11.89, 0.6632, 0.9947, 0.9897],
  [65, 15.15, 0.845, 0.8522, 0.8386],
  [70, 17.7, 0.9871, 0.33, 0.3607],
  [75, 16.17, 0.9021, 0, 0],
] as const;

function checkTemperatureTable(): void {
  for (const [celsius, haug, share, ctmi, rounded] of temperatureTable) {
    near(haugTemperatureFactor(celsius), haug, printed);
    near(haugTemperatureFactor(celsius) / haugTemperatureFactor(haugPeakCelsius), share, printed);
    near(ctmiTemperatureFactor(celsius), ctmi, printed);
    near(ctmiTemperatureFactor(celsius, roundedCardinalTemperatures), rounded, printed);
  }
}

const moistureTable = {
  0.2: 0.0286,
  0.3: 0.1472,
  0.35: 0.2947,
  0.4: 0.5028,
  0.45: 0.71,
  0.5: 0.8557,
  0.55: 0.9349,
  0.6: 0.972,
  0.7: 0.9951,
};
const airSpaceTable = {
  0.05: 0.09024,
  0.1: 0.2447,
  0.15: 0.5142,
  0.2: 0.7757,
  0.25: 0.9187,
  0.3: 0.9736,
  0.35: 0.9918,
  0.4: 0.9975,
};
const oxygenTable = { 1: 0.3333, 2: 0.5, 5: 0.7143, 10: 0.8333, 15: 0.8824, 20.9: 0.9127 };

function checkFactorTable(factor: (at: number) => number, table: Record<number, number>): void {
  for (const [at, expected] of Object.entries(table)) near(factor(Number(at)), expected, printed);
}

/** kg O2, H2O, CO2 and MJ at 14.0 and 13.6 MJ/kg O2, per kg (section 4.5). */
const oxidationTable = {
  glucose: [1.066, 0.6, 1.466, 14.92, 14.49],
  cellulose: [1.184, 0.5555, 1.629, 16.58, 16.1],
  grass: [1.239, 0.525, 1.685, 17.34, 16.85],
  wood: [1.409, 0.54, 1.866, 19.72, 19.16],
  mixedRefuse: [1.53, 0.6149, 1.904, 21.42, 20.81],
  foodGarbage: [1.594, 0.5982, 1.948, 22.31, 21.67],
  sludge: [1.987, 0.7161, 2.187, 27.82, 27.03],
  protein: [1.498, 0.3067, 1.998, 20.98, 20.38],
  fat: [2.825, 1.03, 2.795, 39.55, 38.42],
} as const;

function checkOxidationTable(): void {
  for (const [name, expected] of Object.entries(oxidationTable)) {
    const made = oxidationPerKilogram(substrates[name as keyof typeof oxidationTable]);
    near(made.oxygenKg, expected[0], 1e-3);
    near(made.waterKg, expected[1], 1e-3);
    near(made.carbonDioxideKg, expected[2], 1e-3);
    near(heatFromOxygenMegajoules(made.oxygenKg), expected[3], 1e-3);
    near(heatFromOxygenMegajoules(made.oxygenKg, heatFigures.perOxygenHaug.value), expected[4], 1e-3);
  }
}

function checkTwoPools(): void {
  const pools = { fastShareFraction: 0.6, fastRatePerDay: 0.1, slowRatePerDay: 0.01 };
  const left = { 7: 0.6709, 14: 0.4957, 30: 0.3262, 60: 0.221, 120: 0.1205 };
  checkFactorTable((days) => twoPoolRemainingFraction(pools, days), left);
}

const macrogrow = { minimumCelsius: 5, optimumCelsius: 20, maximumCelsius: 30 };
const combined = { celsius: 55, moistureFraction: 0.55, freeAirSpaceFraction: 0.3, oxygenPercent: 15 };

export const rows: CheckRow[] = [
  { id: 'KIN-01', source: '4a', status: 'CL2', check: () => near(haugTemperatureFactor(20), 0.9995, 1e-4) },
  { id: 'KIN-02', source: '4a', status: 'CL2', check: () => near(haugTemperatureFactor(55), 8.979, 1e-4) },
  {
    id: 'KIN-03',
    source: '4a',
    status: 'CL2',
    check: () => checkFactorTable(haugTemperatureFactor, { 60: 11.89, 70: 17.7, 75: 16.17 }),
  },
  {
    id: 'KIN-04',
    source: '4a',
    status: 'CP',
    check: () => {
      expect(Math.abs(haugPeakCelsius - 71.55)).toBeLessThan(0.01);
      near(haugTemperatureFactor(haugPeakCelsius), 17.93, 1e-3);
      expect(haugTemperatureFactor(haugPeakCelsius + 0.1)).toBeLessThan(
        haugTemperatureFactor(haugPeakCelsius),
      );
      expect(haugTemperatureFactor(haugPeakCelsius - 0.1)).toBeLessThan(
        haugTemperatureFactor(haugPeakCelsius),
      );
    },
  },
  {
    id: 'KIN-05',
    source: '4a',
    status: 'CP',
    check: () => {
      expect(Math.abs(haugZeroCelsius - 80.18)).toBeLessThan(0.01);
      expect(haugTemperatureFactor(haugZeroCelsius + 0.01)).toBe(0);
      expect(haugTemperatureFactor(haugZeroCelsius - 0.01)).toBeGreaterThan(0);
    },
  },
  {
    id: 'KIN-06',
    source: '4f',
    status: 'CL form, MU params',
    check: () => checkFactorTable(ctmiTemperatureFactor, { 20: 0.1229, 40: 0.5968, 65: 0.8522 }),
  },
  {
    id: 'KIN-07',
    source: '4f',
    status: 'CL',
    check: () => near(ctmiTemperatureFactor(22, macrogrow), 0.9633, 1e-4),
  },
  {
    id: 'KIN-08',
    source: '4b',
    status: 'MU+CP',
    check: () => checkFactorTable(moistureFactor, { 0.4: 0.5028, 0.55: 0.9349 }),
  },
  {
    id: 'KIN-09',
    source: '4c',
    status: 'MU+CP',
    check: () => checkFactorTable(freeAirSpaceFactor, { 0.15: 0.5142, 0.3: 0.9736 }),
  },
  {
    id: 'KIN-10',
    source: '4d',
    status: 'MU+CP',
    check: () => {
      near(oxygenFactor(5), 0.7143, 1e-4);
      near(oxygenFactor(15), 0.8824, 1e-4);
    },
  },
  {
    id: 'KIN-11',
    source: '4.2',
    status: 'CP',
    check: () => {
      near(haugRatePerDay(0.01, combined), 0.07211, 1e-3);
      near(remainingFraction(haugRatePerDay(0.01, combined), 30), 0.1149, 1e-3);
    },
  },
  {
    id: 'KIN-12',
    source: '4.4',
    status: 'MU+CP',
    check: () => near(biodegradableFraction(20.9), 0.2448, 1e-4),
  },
  {
    id: 'KIN-13',
    source: '4.5',
    status: 'CP',
    check: () => {
      const made = oxidationPerKilogram(substrates.cellulose);
      near(made.oxygenKg, 1.184, 1e-3);
      near(made.waterKg, 0.5555, 1e-3);
      near(made.carbonDioxideKg, 1.629, 1e-3);
    },
  },
  {
    id: 'KIN-14',
    source: '4.5',
    status: 'CP',
    check: () => {
      near(oxidationPerKilogram(substrates.glucose).oxygenKg, 1.066, 1e-3);
      near(oxidationPerKilogram(substrates.glucose).waterKg, 0.6, 1e-3);
    },
  },
  { id: '4.2-temperature', source: 'table 4.2', status: 'CP', check: checkTemperatureTable },
  {
    id: '4.2-outside-the-list',
    source: '4.2',
    status: 'CP and CL (macrogrow page)',
    check: () => {
      checkFactorTable(haugTemperatureFactor, { 0: 0.2785, 10: 0.5277, 80: 1.025 });
      checkFactorTable(ctmiTemperatureFactor, { 10: 0.0141, 58.6: 1 });
      checkFactorTable((celsius) => ctmiTemperatureFactor(celsius, macrogrow), {
        10: 0.3333,
        22: 0.9633,
        29: 0.1969,
      });
    },
  },
  {
    id: '4.2-moisture',
    source: 'table 4.2',
    status: 'CP',
    check: () => checkFactorTable(moistureFactor, moistureTable),
  },
  {
    id: '4.2-free-air-space',
    source: 'table 4.2',
    status: 'CP',
    check: () => checkFactorTable(freeAirSpaceFactor, airSpaceTable),
  },
  {
    id: '4.2-oxygen',
    source: 'table 4.2; 4e',
    status: 'CP; CL',
    check: () => {
      checkFactorTable(oxygenFactor, oxygenTable);
      near(oxygenFactorOfAir(0.21), 1, 1e-12);
      near(oxygenFactorOfAir(0.05) / oxygenFactorOfAir(0.15), oxygenFactor(5) / oxygenFactor(15), 1e-12);
    },
  },
  {
    id: '4.3-anchors',
    source: '4.3',
    status: 'CP',
    check: () => {
      near(0.05 / haugTemperatureFactor(55), 0.005568, printed);
      near(0.1 / haugTemperatureFactor(55), 0.01114, printed);
      checkTwoPools();
    },
  },
  {
    id: '4.4-lignin',
    source: '4.4',
    status: 'MU+CP',
    check: () => {
      checkFactorTable(biodegradableFraction, { 0: 0.83, 5: 0.69, 16.7: 0.3624, 20.9: 0.2448, 27: 0.074 });
      near(biodegradableFraction(29.65), 0, 1e-12);
    },
  },
  { id: '4.5-oxidation', source: 'table 4.5', status: 'MU formulas, CP outputs', check: checkOxidationTable },
];
