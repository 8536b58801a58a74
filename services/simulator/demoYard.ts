/**
 * "Gannet Row", an invented community yard on an invented coast. Twelve piles, each with a story: most are well, and a
 * few get into every trouble there is, for a reason the pile model works out.
 */
import { pileParameters } from '../../shared/compost/pileModel/parameters.ts';
import {
  driedOutCage,
  freshRichCage,
  gardenBin,
  ordinaryCage,
  precompostedCage,
  type Scenario,
  tooDryBin,
  turnedWindrow,
  wateringEveryOtherDay,
} from '../../shared/compost/pileModel/scenarios.ts';
import type { PileMethod } from '../../shared/yard/method.ts';
import type { Position, Quantity } from '../../shared/yard/yard.ts';
import type { ProbeFault } from './probeFaults.ts';

export interface DemoSensor {
  /** SenML name after the probe's own. */
  readonly channel: string;
  readonly quantity: Quantity;
  readonly position: Position;
  readonly depthMetres: number | null;
  /** How far this one stands off the model's zone: two probes never read alike. */
  readonly offset?: number;
}

export interface DemoPile {
  readonly name: string;
  readonly place: string;
  readonly method: PileMethod;
  readonly ageDays: number;
  readonly scenario: Scenario;
  readonly sensors: readonly DemoSensor[];
  readonly faults?: readonly ProbeFault[];
  readonly madeOf: string;
}

const core: DemoSensor = { channel: 'core', quantity: 'temperature', position: 'core', depthMetres: 0.6 };
const secondCore: DemoSensor = { ...core, channel: 'core2', depthMetres: 0.5, offset: -2.5 };
const shoulder: DemoSensor = {
  channel: 'shoulder',
  quantity: 'temperature',
  position: 'shoulder',
  depthMetres: 0.3,
};
const edge: DemoSensor = { channel: 'edge', quantity: 'temperature', position: 'edge', depthMetres: 0.12 };
const moisture: DemoSensor = {
  channel: 'moisture',
  quantity: 'moisture',
  position: 'shoulder',
  depthMetres: 0.3,
};
const usual = [core, shoulder, edge, moisture];

/** A rich cage whose microbes stand more heat than most: it climbs past the ceiling on its third day. */
const runningAway: Scenario = {
  ...freshRichCage,
  name: 'cage that runs away',
  parameters: {
    ...freshRichCage.parameters,
    kinetics: {
      ...freshRichCage.parameters.kinetics,
      response: { kind: 'haug' },
      dieOffPerDayAt66Celsius: 0,
    },
  },
};

/** A well-wetted cage in a dry, airy corner that nobody waters: it dries through its limit. */
const drying: Scenario = {
  ...driedOutCage,
  name: 'cage nobody waters',
  parameters: {
    ...driedOutCage.parameters,
    material: {
      ...ordinaryCage.parameters.material,
      moistureFraction: 0.623,
      fastShareFraction: 0.45,
      degradableFraction: 0.6,
    },
  },
};

/** The farm windrow with an ordinary, leafy mix. */
const leafyWindrow: Scenario = {
  ...turnedWindrow,
  name: 'leafy windrow',
  parameters: {
    ...turnedWindrow.parameters,
    material: {
      ...turnedWindrow.parameters.material,
      degradableFraction: 0.5,
      slowRatePerDay: 0.01,
      bulkDensityKgPerM3: 430,
    },
  },
};

const wormBed: Scenario = {
  name: 'worm bed',
  parameters: pileParameters({
    shape: { kind: 'box', widthMetres: 1.2, lengthMetres: 3, heightMetres: 0.45 },
    material: {
      bulkDensityKgPerM3: 650,
      moistureFraction: 0.78,
      degradableFraction: 0.15,
      fastShareFraction: 0.05,
      slowRatePerDay: 0.006,
    },
  }),
  interventions: wateringEveryOtherDay(3, 120),
};

const curing: Scenario = {
  name: 'curing heap',
  parameters: pileParameters({
    shape: { kind: 'windrow', widthMetres: 2.4, heightMetres: 1.2, lengthMetres: 6 },
    material: {
      bulkDensityKgPerM3: 600,
      moistureFraction: 0.55,
      degradableFraction: 0.2,
      fastShareFraction: 0.05,
      slowRatePerDay: 0.008,
    },
  }),
  interventions: [],
};

const leafHeap: Scenario = {
  name: 'leaf heap',
  parameters: pileParameters({
    shape: { kind: 'windrow', widthMetres: 2, heightMetres: 1.3, lengthMetres: 4 },
    material: {
      bulkDensityKgPerM3: 260,
      moistureFraction: 0.55,
      degradableFraction: 0.35,
      fastShareFraction: 0.1,
      slowRatePerDay: 0.006,
    },
  }),
  interventions: [],
};

const hotBin: Scenario = {
  ...gardenBin,
  name: 'hot bin',
  parameters: {
    ...gardenBin.parameters,
    material: { ...gardenBin.parameters.material, degradableFraction: 0.65, fastShareFraction: 0.4 },
  },
};

/** How long the gateway by the bins loses its mains, simulated hours after the start. */
const gatewayOut: ProbeFault = { kind: 'silent', fromHours: 22, toHours: 27 };

export const demoYard = {
  name: 'Gannet Row',
  timeZone: 'Atlantic/Faroe',
  temperatureUnit: 'C',
  altitudeMetres: 12,
} as const;

export const demoPeople = [
  { login: 'maren', name: 'Maren Oddsdal', role: 'owner', phone: '+441632960101', textsFrom: 'low' },
  { login: 'tobin', name: 'Tobin Quill', role: 'keeper', phone: '+441632960102', textsFrom: 'high' },
  { login: 'ines', name: 'Ines Farrow', role: 'viewer', phone: null, textsFrom: 'highest' },
] as const;

export const demoPiles: readonly DemoPile[] = [
  {
    name: 'Cage 1',
    place: 'north wall',
    method: 'static-cage',
    ageDays: 34,
    scenario: ordinaryCage,
    sensors: usual,
    madeOf: 'leaf fall, chipped prunings, seaweed',
  },
  {
    name: 'Cage 2',
    place: 'north wall',
    method: 'static-cage',
    ageDays: 5.43,
    scenario: runningAway,
    sensors: [core, secondCore, shoulder, edge, moisture],
    madeOf: 'poultry litter, coffee, chips',
  },
  {
    name: 'Cage 3',
    place: 'north wall',
    method: 'static-cage',
    ageDays: 7,
    scenario: precompostedCage,
    sensors: usual,
    madeOf: 'pre-composted litter and leaves',
  },
  {
    name: 'Cage 4',
    place: 'by the tap',
    method: 'static-cage',
    ageDays: 8,
    scenario: drying,
    sensors: usual,
    madeOf: 'apple pomace, chips, litter',
  },
  {
    name: 'Bin A',
    place: 'bin row',
    method: 'hot-bin',
    ageDays: 5,
    scenario: gardenBin,
    sensors: usual,
    faults: [gatewayOut],
    madeOf: 'kitchen scraps, leaves',
  },
  {
    name: 'Bin B',
    place: 'bin row',
    method: 'hot-bin',
    ageDays: 3.85,
    scenario: tooDryBin,
    sensors: usual,
    faults: [gatewayOut],
    madeOf: 'dry leaves, cardboard',
  },
  {
    name: 'Bin C',
    place: 'bin row',
    method: 'hot-bin',
    ageDays: 9,
    scenario: driedOutCage,
    sensors: usual,
    faults: [gatewayOut],
    madeOf: 'coffee, dry chips',
  },
  {
    name: 'Bin D',
    place: 'bin row',
    method: 'hot-bin',
    ageDays: 4,
    scenario: hotBin,
    sensors: [core, secondCore, shoulder, edge, moisture],
    faults: [{ kind: 'dies', channel: 'core', fromHours: 5 }, gatewayOut],
    madeOf: 'seaweed, grass, chips',
  },
  {
    name: 'Windrow',
    place: 'lower field',
    method: 'turned-windrow',
    ageDays: 20,
    scenario: leafyWindrow,
    sensors: [core, secondCore, shoulder, edge, moisture],
    madeOf: 'leaf fall, poultry litter, prunings',
  },
  {
    name: 'Worm bed',
    place: 'lean-to',
    method: 'worm-bed',
    ageDays: 45,
    scenario: wormBed,
    sensors: [core, moisture],
    madeOf: 'finished bin compost, coffee',
  },
  {
    name: 'Curing heap',
    place: 'gate',
    method: 'curing-heap',
    ageDays: 25,
    scenario: curing,
    sensors: [core, edge, moisture],
    faults: [{ kind: 'power-on', channel: 'core', atHours: 3, silentHours: 1.5 }],
    madeOf: 'last summer’s windrow',
  },
  {
    name: 'Leaf heap',
    place: 'under the limes',
    method: 'leaf-heap',
    ageDays: 40,
    scenario: leafHeap,
    sensors: [core, edge],
    madeOf: 'autumn leaves',
  },
];
