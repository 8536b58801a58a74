import { celsiusFromFahrenheit } from '../../../units/temperature.ts';
import type { PileMethod } from '../../../yard/method.ts';
import { above, atOrAbove, hold, ruleSet } from '../ruleSet.ts';

const inVessel: readonly PileMethod[] = ['hot-bin'];
const staticPiles: readonly PileMethod[] = ['aerated-static-pile', 'static-cage'];
const windrow: readonly PileMethod[] = ['turned-windrow'];
const anyHot: readonly PileMethod[] = ['hot-bin', 'aerated-static-pile', 'static-cage', 'turned-windrow'];

const fiveTurns = { count: 5, minimumSpacingHours: 0 } as const;
const threeDays = { hours: 72, continuity: 'consecutive' } as const;
const fifteenDays = { hours: 360, continuity: 'cumulative', turnings: fiveTurns } as const;
const appendixB =
  '40 CFR Part 503 Appendix B, section B item 1 (as restated in Wis. Admin. Code NR 204.07 and 40 CFR 257 App. II)';

/** Processes to further reduce pathogens. The federal text does not say "consecutive", so that is the yard's choice. */
const furtherReduction = [
  ruleSet({
    id: 'us-pfrp-in-vessel',
    title: 'US EPA Part 503, further reduction, in-vessel',
    source: appendixB,
    status: 'confirmed',
    methods: inVessel,
    paths: [hold({ id: '55-3d', band: atOrAbove(55), ...threeDays })],
  }),
  ruleSet({
    id: 'us-pfrp-static',
    title: 'US EPA Part 503, further reduction, aerated static pile',
    source: appendixB,
    status: 'confirmed',
    methods: staticPiles,
    paths: [hold({ id: '55-3d', band: atOrAbove(55), ...threeDays })],
    note: 'Guidance asks for an insulating cover of about 0.3 m so that the outside gets hot too.',
  }),
  ruleSet({
    id: 'us-pfrp-windrow',
    title: 'US EPA Part 503, further reduction, windrow',
    source: appendixB,
    status: 'confirmed',
    methods: windrow,
    paths: [hold({ id: '55-15d', band: atOrAbove(55), ...fifteenDays })],
  }),
];

/** Processes to significantly reduce pathogens: the federal text wants the 4 hours above 55 C, Massachusetts not below it. */
const significantReduction = [
  ruleSet({
    id: 'us-psrp',
    title: 'US EPA Part 503, significant reduction',
    source: '40 CFR Part 503 Appendix B, section A (read in 40 CFR 257 App. II)',
    status: 'confirmed',
    methods: anyHot,
    paths: [
      hold({
        id: '40-5d',
        band: atOrAbove(40),
        hours: 120,
        continuity: 'consecutive',
        peak: { band: above(55), hours: 4 },
      }),
    ],
  }),
  ruleSet({
    id: 'us-psrp-massachusetts',
    title: 'Massachusetts 310 CMR 32.80, significant reduction',
    source: '310 CMR 32.80(4)',
    status: 'confirmed',
    methods: anyHot,
    paths: [
      hold({
        id: '40-5d',
        band: atOrAbove(40),
        hours: 120,
        continuity: 'consecutive',
        continuityIsPolicy: false,
        peak: { band: atOrAbove(55), hours: 4 },
      }),
    ],
  }),
];

const vectorAttraction = ruleSet({
  id: 'us-var-5',
  title: 'US EPA 503.33 vector attraction, option 5',
  source: '40 CFR 503.33(b)(5)',
  status: 'confirmed-secondary',
  methods: anyHot,
  paths: [
    hold({
      id: '40-14d',
      band: above(40),
      hours: 336,
      continuity: 'consecutive',
      continuityIsPolicy: false,
      averageAboveCelsius: 45,
    }),
  ],
  note: 'Pathogen reduction must be met before this or together with it.',
});

/** The organic rule has an upper end: hours above 170 F (76.7 C) do not count. */
const organicBand = atOrAbove(55, celsiusFromFahrenheit(170));
const organicNote = 'Also asks for a starting carbon to nitrogen ratio of 25:1 to 40:1.';

const nationalOrganicProgram = [
  ruleSet({
    id: 'us-nop-static',
    title: 'US National Organic Program, in-vessel or aerated static pile',
    source: '7 CFR 205.203(c)(2)(ii)',
    status: 'confirmed-secondary',
    methods: [...inVessel, ...staticPiles],
    paths: [hold({ id: 'band-3d', band: organicBand, ...threeDays })],
    note: organicNote,
  }),
  ruleSet({
    id: 'us-nop-windrow',
    title: 'US National Organic Program, windrow',
    source: '7 CFR 205.203(c)(2)(iii)',
    status: 'confirmed-secondary',
    methods: windrow,
    paths: [hold({ id: 'band-15d', band: organicBand, ...fifteenDays })],
    note: organicNote,
  }),
];

const curing = { kind: 'stated', words: 'curing follows the hot period' } as const;

const produceSafety = [
  ruleSet({
    id: 'us-fda-static',
    title: 'US FDA produce rule, static composting',
    source: '21 CFR 112.54(b)',
    status: 'from-memory',
    methods: [...inVessel, ...staticPiles],
    paths: [
      hold({
        id: '55-3d',
        band: atOrAbove(55),
        ...threeDays,
        continuityIsPolicy: false,
        preconditions: [curing],
      }),
    ],
    note: 'The definition of static composting includes piles aired by passive diffusion (21 CFR 112.3, confirmed).',
  }),
  ruleSet({
    id: 'us-fda-turned',
    title: 'US FDA produce rule, turned composting',
    source: '21 CFR 112.54(b)',
    status: 'from-memory',
    methods: windrow,
    paths: [
      hold({
        id: '55-15d',
        band: atOrAbove(55),
        ...fifteenDays,
        continuityIsPolicy: false,
        preconditions: [curing],
      }),
    ],
  }),
];

/** Rules of the United States; figures and statuses from the sanitation reference, sections 1 and 2. */
export const unitedStatesRules = [
  ...furtherReduction,
  ...significantReduction,
  vectorAttraction,
  ...nationalOrganicProgram,
  ...produceSafety,
] as const;
