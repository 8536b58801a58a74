import { atOrAbove, hold, type Precondition, ruleSet } from '../ruleSet.ts';

/** Pieces no larger than this; the record cannot see it, so it is asked of the keeper. */
function piecesUpTo(maximumMetres: number): Precondition[] {
  return [{ kind: 'particle-size', maximumMetres }];
}

const closed: Precondition = { kind: 'stated', words: 'the material is in a closed reactor' };
const housed: Precondition = {
  kind: 'stated',
  words: 'the windrow stands under a roof, shut off from animals',
};
const cateringSource = 'Wales SI 2006/1293 Schedule 1 Part II; same figures in Northern Ireland SR 2003/495';
const cateringNote =
  'An extra barrier is also asked: meat kept out at source and at least 18 days of storage, or a second treatment.';

const unitedKingdom = [
  ruleSet({
    id: 'uk-catering-reactor',
    title: 'UK catering waste, closed reactor',
    source: cateringSource,
    status: 'confirmed',
    methods: ['hot-bin'],
    paths: [
      hold({
        id: '60-2d',
        band: atOrAbove(60),
        hours: 48,
        continuity: 'consecutive',
        preconditions: [closed, ...piecesUpTo(0.4)],
      }),
      hold({
        id: '70-1h',
        band: atOrAbove(70),
        hours: 1,
        continuity: 'consecutive',
        preconditions: [closed, ...piecesUpTo(0.06)],
      }),
    ],
    note: cateringNote,
  }),
  ruleSet({
    id: 'uk-catering-housed-windrow',
    title: 'UK catering waste, housed windrow',
    source: cateringSource,
    status: 'confirmed',
    methods: ['turned-windrow'],
    paths: [
      hold({
        id: '60-8d',
        band: atOrAbove(60),
        hours: 192,
        continuity: 'cumulative',
        turnings: { count: 3, minimumSpacingHours: 48 },
        preconditions: [housed, ...piecesUpTo(0.4)],
      }),
    ],
    note: cateringNote,
  }),
  ruleSet({
    id: 'uk-pas-100',
    title: 'PAS 100 recommended sanitisation, turned windrow',
    source: 'PAS 100:2005/2011, process clause',
    status: 'from-memory',
    methods: ['turned-windrow'],
    paths: [
      hold({
        id: '65-7d',
        band: atOrAbove(65),
        hours: 168,
        continuity: 'cumulative',
        turnings: { count: 2, minimumSpacingHours: 0 },
      }),
    ],
    minimumMoistureFraction: 0.51,
    note: 'Guidance only, to be shown by product tests; editions differ on whether the 7 days must be continuous.',
  }),
];

const germany = ruleSet({
  id: 'de-bioabfv',
  title: 'German Bioabfallverordnung, thermophilic composting',
  source: 'BioAbfV Annex 2 no. 2.2.2.1 (2012/2013 text; amended again in 2022, check before relying on it)',
  status: 'confirmed',
  methods: ['hot-bin', 'aerated-static-pile', 'static-cage', 'turned-windrow'],
  paths: [
    hold({ id: '55-14d', band: atOrAbove(55), hours: 336, continuity: 'consecutive' }),
    hold({ id: '60-6d', band: atOrAbove(60), hours: 144, continuity: 'consecutive' }),
    hold({ id: '65-3d', band: atOrAbove(65), hours: 72, continuity: 'consecutive' }),
  ],
  minimumMoistureFraction: 0.4,
  note: 'The text asks for the hours to be as continuous as possible, in the whole mass.',
});

const europeanUnion = [
  ruleSet({
    id: 'eu-abp-composting',
    title: 'EU animal by-products, composting, standard parameters',
    source: 'Regulation (EU) 142/2011 Annex V (biogas row confirmed; composting row recalled)',
    status: 'from-memory',
    methods: ['hot-bin'],
    paths: [
      hold({
        id: '70-1h',
        band: atOrAbove(70),
        hours: 1,
        continuity: 'consecutive',
        continuityIsPolicy: false,
        preconditions: [closed, ...piecesUpTo(0.012)],
      }),
    ],
  }),
  ruleSet({
    id: 'eu-cmc-3',
    title: 'EU fertilising products, compost (CMC 3)',
    source: 'Regulation (EU) 2019/1009 Annex II Part II CMC 3',
    status: 'from-memory',
    methods: ['hot-bin', 'aerated-static-pile', 'static-cage', 'turned-windrow'],
    paths: [
      hold({ id: '55-14d', band: atOrAbove(55), hours: 336, continuity: 'consecutive' }),
      hold({ id: '60-7d', band: atOrAbove(60), hours: 168, continuity: 'consecutive' }),
      hold({ id: '65-5d', band: atOrAbove(65), hours: 120, continuity: 'consecutive' }),
      hold({ id: '70-3d', band: atOrAbove(70), hours: 72, continuity: 'consecutive' }),
    ],
    note: 'All parts of each batch. A stability test is asked for as well.',
  }),
];

/** Rules of Europe; figures and statuses from the sanitation reference, sections 3.1 to 3.3. */
export const europeanRules = [...unitedKingdom, germany, ...europeanUnion] as const;
