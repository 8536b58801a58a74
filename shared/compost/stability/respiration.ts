import type { RuleStatus } from '../sanitisation/ruleSet.ts';

const gramsPerMolOxygen = 31.998;
const gramsPerMolCarbon = 12.011;
const gramsPerMolCarbonDioxide = 44.009;

/** Carbon in carbon dioxide, by mass (16 mg CO2 is 4.367 mg CO2-C). */
export function carbonOfCarbonDioxide(carbonDioxide: number): number {
  return (carbonDioxide * gramsPerMolCarbon) / gramsPerMolCarbonDioxide;
}

/** Oxygen uptake, mg per kg per hour, from mmol per kg per hour (25 mmol is 800 mg). */
export function oxygenMilligramsFromMillimoles(millimoles: number): number {
  return millimoles * gramsPerMolOxygen;
}

/** Oxygen uptake, mmol per kg per hour, from mg per kg per hour (400 mg is 12.5 mmol). */
export function oxygenMillimolesFromMilligrams(milligrams: number): number {
  return milligrams / gramsPerMolOxygen;
}

/** Oxygen uptake in mg per g per day from mg per kg per hour. */
export function perGramDayFromPerKilogramHour(milligrams: number): number {
  return (milligrams * 24) / 1000;
}

/**
 * CO2-C in mg per g per day that goes with an oxygen uptake in mg per g per day.
 * @param respiratoryQuotient mol CO2 given off per mol O2 taken up; 1 for sugars.
 */
export function carbonFromOxygen(oxygen: number, respiratoryQuotient = 1): number {
  return (oxygen / gramsPerMolOxygen) * respiratoryQuotient * gramsPerMolCarbon;
}

export interface RespirationClass {
  readonly name: string;
  /** Upper edge; the edge itself belongs to this class only where `edgeIncluded`. */
  readonly upTo: number;
  readonly edgeIncluded: boolean;
}

/** A published way to judge respiration. Schemes disagree, so the scheme is the yard's choice and always named. */
export interface RespirationScheme {
  readonly id: string;
  readonly title: string;
  readonly unit:
    | 'mg CO2-C per g organic matter per day'
    | 'mg CO2 per g organic matter per day'
    | 'mmol O2 per kg organic matter per h';
  readonly status: RuleStatus;
  readonly classes: readonly RespirationClass[];
}

const open = Number.POSITIVE_INFINITY;

export const respirationSchemes: readonly RespirationScheme[] = [
  {
    id: 'tmecc',
    title: 'TMECC 05.08-B',
    unit: 'mg CO2-C per g organic matter per day',
    status: 'from-memory',
    classes: [
      { name: 'very stable', upTo: 2, edgeIncluded: false },
      { name: 'stable', upTo: 8, edgeIncluded: true },
      { name: 'moderately unstable', upTo: 15, edgeIncluded: true },
      { name: 'unstable', upTo: 40, edgeIncluded: true },
      { name: 'raw', upTo: open, edgeIncluded: true },
    ],
  },
  {
    id: 'ccqc',
    title: 'California maturity index (2001)',
    unit: 'mg CO2-C per g organic matter per day',
    status: 'from-memory',
    classes: [
      { name: 'very mature', upTo: 2, edgeIncluded: false },
      { name: 'mature', upTo: 4, edgeIncluded: true },
      { name: 'immature', upTo: open, edgeIncluded: true },
    ],
  },
  passFail('pas-100', 'PAS 100:2005', 'mg CO2 per g organic matter per day', 16, 'confirmed-secondary'),
  passFail('ccme', 'CCME 2005', 'mg CO2-C per g organic matter per day', 4, 'from-memory'),
  passFail('eu-2019-1009', 'EU 2019/1009', 'mmol O2 per kg organic matter per h', 25, 'from-memory'),
];

function passFail(
  id: string,
  title: string,
  unit: RespirationScheme['unit'],
  limit: number,
  status: RuleStatus,
): RespirationScheme {
  const classes = [
    { name: 'within the limit', upTo: limit, edgeIncluded: true },
    { name: 'above the limit', upTo: open, edgeIncluded: true },
  ];
  return { id, title, unit, status, classes };
}

/** The class name of a respiration rate, which must be in the scheme's unit. Throws `RangeError` below zero. */
export function respirationClass(rate: number, scheme: RespirationScheme): string {
  if (!(rate >= 0)) throw new RangeError(`respiration rate is ${rate}; allowed is 0 or more ${scheme.unit}`);
  return scheme.classes.find(({ upTo, edgeIncluded }) => rate < upTo || (edgeIncluded && rate === upTo))!
    .name;
}
