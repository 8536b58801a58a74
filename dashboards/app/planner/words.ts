import type { TargetVerdict } from '../../../shared/compost/mix/targets.ts';
import type { GaugedName } from '../../../shared/compost/planner/mixRanges.ts';
import type { AimKind, AmountUnit, FigureName } from '../../../shared/compost/planner/plan.ts';

/** Words of the planner: its frame and the mix. Cage, heat and build sheet have their own files beside this one. */
export const partTitles = { mix: 'Mix', cage: 'Cage and air', heat: 'Heat', build: 'Build' } as const;

export const unitWords: Readonly<Record<AmountUnit, string>> = {
  kilogram: 'kg',
  litre: 'litres',
  bucket: 'buckets',
  barrow: 'barrows',
};

export const gaugeTitles: Readonly<Record<GaugedName, string>> = {
  carbonToNitrogen: 'Carbon to nitrogen (C:N)',
  moistureFraction: 'Moisture',
  freeAirSpace: 'Free air space',
  bulkDensity: 'Bulk density',
};

/** Where there is little room. */
export const shortTitles: Readonly<Record<GaugedName, string>> = {
  carbonToNitrogen: 'C:N',
  moistureFraction: 'water',
  freeAirSpace: 'air',
  bulkDensity: 'density',
};

export const verdictWords: Readonly<Record<GaugedName, Readonly<Record<TargetVerdict, string>>>> = {
  carbonToNitrogen: {
    preferred: 'as it should be',
    acceptable: 'workable',
    'too low': 'too rich: heats hard, smells of ammonia',
    'too high': 'too lean: slow to heat',
  },
  moistureFraction: {
    preferred: 'as it should be',
    acceptable: 'workable',
    'too low': 'too dry',
    'too high': 'too wet: runs out and shuts out air',
  },
  freeAirSpace: {
    preferred: 'as it should be',
    acceptable: 'workable',
    'too low': 'too dense: little air gets in',
    'too high': 'very open: loses heat and dries',
  },
  bulkDensity: {
    preferred: 'as it should be',
    acceptable: 'on the heavy side',
    'too low': 'light: airy, holds less heat',
    'too high': 'heavy: packs and shuts out air',
  },
};

export const shortVerdicts: Readonly<Record<GaugedName, Readonly<Record<TargetVerdict, string>>>> = {
  carbonToNitrogen: {
    preferred: 'right',
    acceptable: 'workable',
    'too low': 'too rich',
    'too high': 'too lean',
  },
  moistureFraction: {
    preferred: 'right',
    acceptable: 'workable',
    'too low': 'too dry',
    'too high': 'too wet',
  },
  freeAirSpace: {
    preferred: 'right',
    acceptable: 'workable',
    'too low': 'too dense',
    'too high': 'very open',
  },
  bulkDensity: { preferred: 'right', acceptable: 'rather heavy', 'too low': 'light', 'too high': 'heavy' },
};

export const figureWords: Readonly<Record<FigureName, string>> = {
  moistureFraction: 'Moisture, % of wet weight',
  nitrogenFractionDry: 'Nitrogen, % of dry weight',
  carbonToNitrogen: 'C:N',
  ashFractionDry: 'Ash, % of dry weight',
  bulkDensity: 'Bulk density, kg/m3, loose',
};

export const aimWords: Readonly<Record<AimKind, string>> = {
  carbonToNitrogen: 'C:N',
  moisture: 'Moisture, %',
  freeAirSpace: 'Free air space, %',
  volume: 'Volume, m3 (empty: fill it)',
  weight: 'Weight, kg',
};

/** CL, CL2 and MU of the reference pack, for people. */
export const statusWords = {
  CL: 'seen in its source',
  CL2: 'seen second-hand',
  'CL, CL2': 'seen in its source',
  MU: 'from memory, unconfirmed',
} as const;

export const text = {
  title: 'Plan a pile',
  parts: 'Parts of the plan',
  plans: 'Plans',
  planName: 'Name of this plan',
  otherPlan: 'Plans in this browser',
  newPlan: 'New plan',
  deletePlan: 'Delete this plan',
  deleteSure: (name: string) => `Delete "${name}" from this browser?`,
  unnamed: 'Plan without a name',
  unnamedNumber: (number: string) => `Plan without a name ${number}`,
  keptHere:
    'Plans are kept in this browser only: nobody else sees them, and clearing its data removes them. Print the sheet, or start the pile, to keep the recipe.',
  notKept: 'This browser refuses to keep anything: the plan is lost when the page is closed.',
  ingredients: 'What you have',
  search: 'Find an ingredient',
  searchHint: 'Type a few letters: leaf, straw, manure, coffee...',
  nothingFound: 'Nothing in the table has that in its name. Add it as your own and type its numbers.',
  found: (count: number) => `${count} found.`,
  foundFirst: (count: number, shown: number) => `${count} found, the first ${shown} shown.`,
  addOwn: 'Add one of my own',
  addWater: 'Add water',
  noLines: 'Nothing yet. Find an ingredient above, or add one of your own.',
  water: 'Water',
  yourOwn: 'Your own',
  someIngredient: 'ingredient',
  ownName: 'What is it',
  amountOf: (name: string) => `Amount of ${name}`,
  amountHere: 'amount',
  unitOf: (name: string) => `Unit of ${name}`,
  workOut: 'work out',
  workOutOf: (name: string) => `work out the amount of ${name}`,
  toWorkOut: 'To be worked out by the button below.',
  remove: 'Remove',
  removeOf: (name: string) => `Remove ${name}`,
  comesTo: (kilograms: string) => `= ${kilograms} kg`,
  comesToLitres: (kilograms: string, litres: string) => `= ${kilograms} kg, ${litres} litres`,
  comesToLoose: (kilograms: string, litres: string) => `= ${kilograms} kg, ${litres} litres loose`,
  andWorkedOut: (amounts: string) => `${amounts} (worked out)`,
  waterIs: 'Fills pores and adds no volume until they are full (our assumption).',
  ratioIs: (ratio: string) => `C:N ${ratio}`,
  ratioUnknown: 'C:N not known',
  moistureIs: (percent: string) => `moisture ${percent} %`,
  moistureUnknown: 'moisture not known',
  nitrogenIs: (percent: string) => `N ${percent} %`,
  nitrogenUnknown: 'N not known',
  densityIs: (density: string) => `${density} kg/m3`,
  densityUnknown: 'bulk density not known',
  withRange: (value: string, low: string, high: string) => `${value} (${low}-${high})`,
  onlyRange: (low: string, high: string) => `${low}-${high}`,
  yourNumbers: 'your numbers',
  itsNumbers: 'Its numbers and where they come from',
  assumed: 'Assumed:',
  numberFrom: (value: string, from: string) => `${value}, ${from}`,
  numberFromRange: (value: string, from: string, low: string, high: string, rangeFrom: string) =>
    `${value}, ${from}; range ${low} to ${high}, ${rangeFrom}`,
  ashUnknown: 'Not in the table; taken from carbon.',
  numberUnknown: 'Not known: measure it or ask who sells it.',
  leaveEmpty: 'Leave a field empty to take the table\u2019s value. What you type counts as measured.',
  bucketSize: 'One bucket holds, litres',
  barrowSize: 'One barrow holds, litres',
  packing: 'Packs together by, %',
  packingHint: 'Mixes take 10 to 40 % less room than their parts did loose (from memory, unconfirmed).',
  measures: 'Bucket, barrow and packing',
  gauges: 'What it comes to',
  packed: (cubicMetres: string) => `, about ${cubicMetres} m3 once packed`,
  tooMuchWater: (litres: string) => `About ${litres} litres are more than the pores hold: they will run out.`,
  noMix: 'Give an amount to see what the mix comes to.',
  aims: 'Work out amounts',
  aimsLegend: 'Aims',
  aimFor: (aim: string) => `${aim} to aim for`,
  aimsHint:
    'Tick "work out" beside up to three ingredients, and as many aims here. Water may be one of them.',
  findAmounts: (count: number) =>
    count === 0 ? 'Work out the amounts' : count === 1 ? 'Work out 1 amount' : `Work out ${count} amounts`,
  findWater: (percent: string) => `Just the water for ${percent} %`,
  foundAmounts: 'Worked out:',
  amountIs: (name: string, kilograms: string) => `${name} ${kilograms} kg`,
  nearest: 'Nearest you can get',
  insteadOf: (name: string, other: string, kilograms: string) =>
    `${name} in place of ${other}: ${kilograms} kg of it would meet every aim.`,
  changeAim: 'Change an aim, or add an ingredient that differs more from these.',
  numberNeeded: 'A number is needed here.',
  notPossible: (typed: string, least: number, most: number) =>
    `${typed} is not possible here: ${least} to ${most}.`,
  withUnit: (label: string, unit: string) => `${label}, ${unit}`,
  infeasible: 'That cannot be done',
  wouldHelp: 'What would help',
  takeNearest: 'Take this',
} as const;

/** What is said of a gauge beside its verdict. */
export const gaugeWords = {
  notKnown: (why: string) => `Not known: ${why}`,
  noNitrogen: 'nothing in the mix holds nitrogen.',
  noDensity: 'the bulk density of an ingredient is missing.',
  mayBe: (low: string, high: string) => `; may be ${low} to ${high}`,
  mayBeJudged: (low: string, high: string, lowVerdict: string, highVerdict: string) =>
    `; may be ${low} to ${high} (${lowVerdict} to ${highVerdict})`,
  upTo: (high: string) => `up to ${high}`,
  above: (low: string) => `above ${low}`,
  about: (value: string) => `about ${value}`,
  fromTo: (low: string, high: string) => `${low} to ${high}`,
  aim: (range: string) => `Aim for ${range}`,
  works: (range: string) => `works ${range}`,
  aimFrom: (range: string) => `Aim for ${range}: says who?`,
  from: (aims: string, source: string, status: string) => `${aims}. ${source} (${status}).`,
  drawn: (aim: string) => `Drawn: ${aim}`,
  other: (verdict: string, aim: string) => `${verdict}: ${aim}`,
  atStart: 'At the start',
} as const;
