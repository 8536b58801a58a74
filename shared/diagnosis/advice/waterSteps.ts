import { type AdviceStep, practice, type StepsByCause, turned, unturned } from './step.ts';

const waterInRounds: AdviceStep = {
  text: 'Water slowly from the top in several rounds, an hour apart, until water just begins to seep from the base.',
  short: 'Water it slowly, in rounds, until the base just seeps.',
  deeds: ['water'],
  moisture: ['too-dry', 'fine'],
  troubles: ['drying-out'],
  source: practice,
};

const squeezeThenWater: AdviceStep = {
  text: 'Squeeze a handful from inside. Dust or crumbles: water slowly in several rounds. Drops: leave it.',
  short: 'Squeeze-test it; if dry, water slowly, in rounds.',
  deeds: ['handful', 'water'],
  moisture: ['unknown'],
  troubles: ['drying-out'],
  source: practice,
};

const wetter: readonly AdviceStep[] = [squeezeThenWater, waterInRounds];

/** For a pile that is too wet or drying out. */
export const waterSteps: StepsByCause = {
  rain: [
    {
      text: 'Keep rain off with a roof or sheet that stands clear, so that air still passes at the sides.',
      short: 'Keep rain off; let air pass at the sides.',
      deeds: ['roof'],
      source: practice,
    },
  ],
  overwatered: [
    {
      text: 'Stop watering until nothing seeps from the base any more.',
      short: 'Stop watering until its base no longer seeps.',
      deeds: ['let-dry'],
      source: practice,
    },
  ],
  'wet-mix': [
    {
      text: 'Turn it and mix in coarse dry material until it no longer drips.',
      short: 'Turn it and mix in coarse dry chips.',
      deeds: ['turn', 'add-carbon', 'let-dry'],
      methods: turned,
      source: practice,
    },
    {
      text: 'Stop watering, keep rain off and let it drain; lay coarse dry material on top.',
      short: 'Stop watering, keep rain off and let it drain.',
      deeds: ['let-dry'],
      methods: unturned,
      source: practice,
    },
  ],
  packed: [
    {
      text: 'Turn it to loosen it and mix in coarse chips.',
      short: 'Turn it to loosen it; mix in coarse chips.',
      deeds: ['turn', 'add-carbon'],
      methods: turned,
      troubles: ['too-wet'],
      source: 'free air space above 20-30 % asked (Technical Note 24; Haug, from memory)',
    },
    {
      text: 'Stop watering and clear the air channels with a smooth pole.',
      short: 'Stop watering; clear the air channels.',
      deeds: ['let-dry', 'clear-channels'],
      methods: ['static-cage'],
      troubles: ['too-wet'],
      source: 'reference section 6',
    },
  ],
  'poor-drainage': [
    {
      text: 'Lead the water away from its base with a small ditch; set the next one on a pallet or coarse chips.',
      short: 'Lead the water away from its base.',
      deeds: ['go-near'],
      source: practice,
    },
  ],
  'own-heat': [
    ...wetter,
    {
      text: 'Water it before it is dry from now on: while it is hot, water leaves with the heat.',
      deeds: ['water'],
      troubles: ['drying-out'],
      source: 'about 4-6 kg of water per kg used up (computed, reference 5.8)',
    },
  ],
  'under-watered': [
    ...wetter,
    {
      text: 'Then water every day or two, a minute or two at a time, and log the litres.',
      deeds: ['water'],
      methods: ['static-cage'],
      source: 'park-district page, reference section 6',
    },
  ],
  'built-dry': [
    {
      text: 'Turn it and water while turning, so that no dry pockets are left.',
      short: 'Turn it and water while turning.',
      deeds: ['turn', 'water'],
      methods: turned,
      moisture: ['too-dry'],
      source: 'NC DEQ: add water while turning',
    },
    ...wetter,
  ],
  'water-runs-past': [
    {
      text: 'Water very slowly, in many small rounds or by a drip line, so that it soaks in instead of running past.',
      short: 'Water very slowly in many small rounds, or by drip.',
      deeds: ['water'],
      moisture: ['too-dry', 'fine'],
      source: practice,
    },
    ...wetter,
  ],
  'hot-weather': [
    ...wetter,
    { text: 'Shade it and keep the wind off.', deeds: [], troubles: ['drying-out'], source: practice },
  ],
};

/** Said when nothing else is safe and fits. */
export const waterFallback: readonly AdviceStep[] = [
  { ...squeezeThenWater, troubles: ['drying-out'] },
  { ...waterInRounds, troubles: ['drying-out'] },
  {
    text: 'Stop watering, keep rain off, and read it again in a day.',
    short: 'Stop watering, keep rain off; read again in a day.',
    deeds: ['let-dry'],
    troubles: ['too-wet'],
    source: practice,
  },
  {
    text: 'Change nothing on a guess: read it again tomorrow, and log what you see and smell from beside it.',
    short: 'Change nothing on a guess; read it again tomorrow.',
    deeds: [],
    source: 'ours',
  },
];
