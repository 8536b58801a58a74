import { above, atOrAbove, hold, ruleSet } from '../ruleSet.ts';

const fiveTurns = { count: 5, minimumSpacingHours: 0 } as const;
const ccme = 'CCME Guidelines for Compost Quality PN 1340 (2005), pathogen section';
const as4454 = 'AS 4454-2012 clause 3.2.1 and appendix';
const produceCode = 'Australian fresh-produce compost code, industry leaflet';

const canada = [
  ruleSet({
    id: 'ca-ccme-static',
    title: 'Canada CCME, in-vessel or aerated static pile',
    source: ccme,
    status: 'from-memory',
    methods: ['hot-bin', 'aerated-static-pile', 'static-cage'],
    paths: [hold({ id: '55-3d', band: atOrAbove(55), hours: 72, continuity: 'consecutive' })],
    note: 'An insulating cover is preferred on an aerated static pile.',
  }),
  ruleSet({
    id: 'ca-ccme-windrow',
    title: 'Canada CCME, windrow',
    source: ccme,
    status: 'from-memory',
    methods: ['turned-windrow'],
    paths: [
      hold({ id: '55-15d', band: atOrAbove(55), hours: 360, continuity: 'cumulative', turnings: fiveTurns }),
    ],
  }),
];

const australia = [
  ruleSet({
    id: 'au-as4454-windrow',
    title: 'Australia AS 4454, pasteurisation, turned windrow',
    source: as4454,
    status: 'from-memory',
    methods: ['turned-windrow'],
    zones: 'core',
    paths: [
      {
        kind: 'hold-before-turns',
        id: '55-3d-x3',
        band: atOrAbove(55),
        hours: 72,
        turns: 3,
        preconditions: [],
      },
    ],
  }),
  ruleSet({
    id: 'au-as4454-higher-risk',
    title: 'Australia AS 4454, higher-risk feedstock',
    source: as4454,
    status: 'from-memory',
    methods: ['turned-windrow'],
    zones: 'core',
    paths: [
      hold({ id: '55-15d', band: atOrAbove(55), hours: 360, continuity: 'cumulative', turnings: fiveTurns }),
    ],
    note: 'For manure, food, grease trap and other animal waste.',
  }),
  ruleSet({
    id: 'au-produce-in-vessel',
    title: 'Australian fresh-produce code, in-vessel',
    source: produceCode,
    status: 'confirmed',
    methods: ['hot-bin'],
    paths: [hold({ id: '55-3d', band: above(55), hours: 72, continuity: 'consecutive' })],
  }),
  ruleSet({
    id: 'au-produce-windrow',
    title: 'Australian fresh-produce code, windrow',
    source: produceCode,
    status: 'confirmed',
    methods: ['turned-windrow'],
    paths: [
      hold({ id: '55-15d', band: above(55), hours: 360, continuity: 'cumulative', turnings: fiveTurns }),
    ],
    note: 'The leaflet gives "above 55 C" for vessels; the same is used for the windrow, the stricter reading.',
  }),
];

/** Rules of Canada and Australia; figures and statuses from the sanitation reference, section 3.4. */
export const canadianAndAustralianRules = [...canada, ...australia] as const;
