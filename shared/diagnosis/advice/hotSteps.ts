import type { CauseId } from '../causes.ts';
import { type AdviceStep, notWet, practice, type StepsByCause, turned } from './step.ts';

const smallBites = 'Surrey Fire and Rescue (70-80 C); North Carolina DEQ';

/** Bringing the heat down comes before its cause. The ladder of the reference pack, 5.3, below fire danger. */
const cooling: readonly AdviceStep[] = [
  {
    text: 'Find out how large the hot part is. Open it in small bites with a charged hose ready, wet what is exposed and spread it thin.',
    short: 'Open the hot part in small bites, charged hose; wet it.',
    deeds: ['open-in-bites', 'water'],
    fromCelsius: 71,
    source: smallBites,
  },
  {
    text: 'Have a charged hose ready and keep people off; ask the fire service before it is opened: it is wet and still very hot.',
    short: 'Hose ready, people off it; ask the fire service.',
    deeds: [],
    fromCelsius: 71,
    moisture: ['too-wet'],
    source: smallBites,
  },
  {
    text: 'Do not turn it. See that the air channels are open and wet it slowly, a charged hose ready.',
    short: 'Do not turn it. See that air channels are open; wet it.',
    deeds: ['water'],
    methods: ['static-cage'],
    fromCelsius: 60,
    source: 'reference section 6: water and check channels, never turn',
  },
  {
    text: 'Do not turn it. Check blower and air pipes, and wet it slowly.',
    short: 'Do not turn it. Check blower and pipes; wet it slowly.',
    deeds: ['water'],
    methods: ['aerated-static-pile'],
    fromCelsius: 60,
    source: practice,
  },
  {
    text: 'Do not turn it. See that air can pass: channels, pipes, blower.',
    short: 'Do not turn it. Check that air can pass.',
    deeds: ['go-near'],
    methods: ['static-cage', 'aerated-static-pile'],
    source: 'reference section 6',
  },
  {
    text: 'Turn it and wet it while turning.',
    short: 'Turn it and wet it while turning; read again in a day.',
    deeds: ['turn', 'water'],
    methods: turned,
    moisture: ['unknown', ...notWet],
    source: 'North Carolina DEQ: turn and add water at 160 F (71 C)',
  },
  {
    text: 'Turn it and mix in coarse dry chips: it is wet enough.',
    short: 'Turn it and mix in coarse chips; read again in a day.',
    deeds: ['turn', 'add-carbon'],
    methods: turned,
    moisture: ['too-wet'],
    source: practice,
  },
  {
    text: 'Take the fresh feed off and spread it thin, so that worms find a cool side.',
    short: 'Take fresh feed off, spread it thin; leave a cool side.',
    deeds: ['lower'],
    methods: ['worm-bed'],
    source: 'fresh feed can re-heat a worm bed (reference 7.1)',
  },
  {
    text: 'Make it lower and wet it slowly.',
    short: 'Make it lower and wet it slowly; read again in a day.',
    deeds: ['lower', 'water'],
    methods: ['curing-heap', 'leaf-heap'],
    source: 'North Carolina DEQ: keep piles 1.5-1.8 m high',
  },
  {
    text: 'Wet it slowly from the side with a charged hose ready, and keep people off it.',
    short: 'Wet it slowly from the side; keep people off it.',
    deeds: ['water'],
    fromCelsius: 71,
    source: smallBites,
  },
];

const readOften: readonly AdviceStep[] = [
  {
    text: 'Read it every few hours; do not leave it overnight unwatched.',
    deeds: [],
    fromCelsius: 71,
    source: smallBites,
  },
  { text: 'Read it again within a day.', deeds: [], belowCelsius: 71, source: 'reference pack, 5.3' },
];

const byCause: Partial<Record<CauseId, readonly AdviceStep[]>> = {
  'rich-mix': [
    {
      text: 'Add no rich material; mix more brown into the next one.',
      deeds: [],
      source: 'NRAES-54: C:N 20-40',
    },
  ],
  'too-big': [
    {
      text: 'Make it lower: 1.5-1.8 m high and 2.4-3 m wide keep heat in hand.',
      deeds: ['lower'],
      source: 'North Carolina DEQ',
    },
  ],
  'too-dry-to-cool': [
    {
      text: 'Check the moisture after each wetting: 20 to 45 % is the dangerous range, 50 to 60 % the aim.',
      deeds: ['water'],
      source: 'Buggeln and Rynk 2002 (from memory, unconfirmed); reference 5.3',
    },
  ],
  'air-path-blocked': [
    {
      text: 'Clear the air channels with a smooth pole, or check blower and pipes: draught carries heat off.',
      deeds: ['clear-channels'],
      methods: ['static-cage', 'aerated-static-pile'],
      source: 'reference section 6',
    },
  ],
  'hot-weather': [{ text: 'Shade it, and judge it by its reading at dawn.', deeds: [], source: practice }],
  'probe-wrong': [
    {
      text: 'Take the reading as true until a hand thermometer, pushed in from the side, says otherwise.',
      deeds: ['push-in'],
      source: 'ours: a hot reading is believed until it is shown to be wrong',
    },
  ],
};

const uncoverFirst: AdviceStep = {
  text: 'Take the tight cover off and let it breathe, standing back from the steam.',
  short: 'Take the tight cover off; stand back from the steam.',
  deeds: ['uncover'],
  source: 'ladder of the reference pack, 5.3: no tight cover from 65 C',
};

const hotCauses: readonly CauseId[] = [
  'rich-mix',
  'too-big',
  'too-dry-to-cool',
  'air-path-blocked',
  'hot-weather',
  'covered-tight',
  'probe-wrong',
  'other',
];

/** For a pile that is too hot, below fire danger. */
export const hotSteps: StepsByCause = Object.fromEntries(
  hotCauses.map((cause) => [
    cause,
    [
      ...(cause === 'covered-tight' ? [uncoverFirst] : []),
      ...cooling,
      ...(byCause[cause] ?? []),
      ...readOften,
    ],
  ]),
);

/** Said when nothing else is safe and fits. */
export const hotFallback: readonly AdviceStep[] = [
  {
    text: 'Keep people off it and ask the fire service before it is opened; read it from beside it.',
    short: 'Keep people off it; ask the fire service before opening.',
    deeds: [],
    fromCelsius: 71,
    source: smallBites,
  },
  {
    text: 'Read it again in a few hours; do not cover it tightly or press it down.',
    short: 'Read it again in a few hours; do not cover it tightly.',
    deeds: [],
    source: 'reference pack, 5.3',
  },
];
