import type { TargetVerdict } from '../../../shared/compost/mix/targets.ts';
import type { GaugedName } from '../../../shared/compost/planner/mixRanges.ts';
import type { AimKind, AmountUnit, FigureName } from '../../../shared/compost/planner/plan.ts';

/** Every word of the planner's screens that is not computed, in one place so that it can be translated. */
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
  planName: 'Name of this plan',
  otherPlan: 'Plans in this browser',
  newPlan: 'New plan',
  deletePlan: 'Delete this plan',
  unnamed: 'Plan without a name',
  keptHere:
    'Plans are kept in this browser only: nobody else sees them, and clearing its data removes them. Print the sheet, or start the pile, to keep the recipe.',
  notKept: 'This browser refuses to keep anything: the plan is lost when the page is closed.',
  ingredients: 'What you have',
  search: 'Find an ingredient',
  searchHint: 'Type a few letters: leaf, straw, manure, coffee...',
  nothingFound: 'Nothing in the table has that in its name. Add it as your own and type its numbers.',
  addOwn: 'Add one of my own',
  addWater: 'Add water',
  noLines: 'Nothing yet. Find an ingredient above, or add one of your own.',
  ownName: 'What is it',
  amount: 'Amount',
  workOut: 'work out',
  toWorkOut: 'To be worked out by the button below.',
  workedOut: 'worked out',
  remove: 'Remove',
  itsNumbers: 'Its numbers and where they come from',
  leaveEmpty: 'Leave a field empty to take the table\u2019s value. What you type counts as measured.',
  bucketSize: 'One bucket holds, litres',
  barrowSize: 'One barrow holds, litres',
  packing: 'Packs together by, %',
  packingHint: 'Mixes take 10 to 40 % less room than their parts did loose (from memory, unconfirmed).',
  measures: 'Bucket, barrow and packing',
  gauges: 'What it comes to',
  noMix: 'Give an amount to see what the mix comes to.',
  aims: 'Work out amounts',
  aimsHint:
    'Tick "work out" beside up to three ingredients, and as many aims here. Water may be one of them.',
  findWater: 'Just the water',
  infeasible: 'That cannot be done',
  wouldHelp: 'What would help',
  takeNearest: 'Take this',
  cage: 'What it stands in',
  formPanel: 'A wire panel, rolled up',
  formRadius: 'A round cage of known size',
  formBox: 'A box',
  wallQuestion: 'Does air come through the wall?',
  wallWire: 'Yes: wire, cloth, slats with gaps',
  wallBoards: 'No: boards, blocks, sheet',
  topQuestion: 'Is the top open?',
  baseQuestion: 'Can air come in from below?',
  baseYes: 'Yes: pallet, coarse brush, pipes',
  baseNo: 'No: it stands on the ground',
  channels: 'Air channels',
  bestChannels: 'as few as will do',
  plan: 'From above',
  section: 'Cut through the probe',
  atWall:
    'Boards take heat away there: to see the hottest place, stand another probe farther in, midway between channels.',
  prediction: 'What it will do',
  restsOn: 'What this rests on',
  composted: 'Compost it hot first?',
  build: 'Build sheet',
  print: 'Print this sheet',
  start: 'Start the pile from it',
  cautions: 'Mind',
  running: 'Reckoning the course',
} as const;
