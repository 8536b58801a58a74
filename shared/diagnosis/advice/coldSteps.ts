import { coldTroubles } from '../trouble.ts';
import { airSteps } from './airSteps.ts';
import { readAgain, squeezeFirst } from './sharedSteps.ts';
import { type AdviceStep, notWet, practice, type StepsByCause, turned, unturned } from './step.ts';

const noHeatDue: AdviceStep = {
  text: 'No more heat is due at this stage: leave it, keep it moist, and go by look and smell.',
  short: 'No heat is due at this stage: leave it and keep it moist.',
  deeds: [],
  stages: ['curing', 'finished'],
  source: 'AgriFutures: curing begins when it stays below 45 C even after a turn',
};

/** For a pile that does not make or hold heat. */
export const coldSteps: StepsByCause = {
  'too-dry': [
    squeezeFirst,
    {
      text: 'Turn it and water while turning, so that no dry pockets are left.',
      short: 'Turn it and water while turning; read again in 2 days.',
      deeds: ['turn', 'water'],
      methods: turned,
      moisture: notWet,
      source: 'NC DEQ: add water while turning',
    },
    {
      text: 'Water slowly from the top in several rounds, an hour apart, until water just begins to seep from the base.',
      short: 'Water it slowly, in rounds, until the base just seeps.',
      deeds: ['water'],
      moisture: notWet,
      source: practice,
    },
    {
      text: 'Then keep it moist: a minute or two of sprinkler or drip line every day or two.',
      deeds: ['water'],
      methods: ['static-cage'],
      moisture: notWet,
      source: 'park-district page, reference section 6',
    },
    {
      text: 'The moisture evidence says wet: squeeze-test a second place before it is watered.',
      short: 'Evidence says wet: squeeze-test a second place first.',
      deeds: ['handful'],
      moisture: ['too-wet'],
      source: 'ours',
    },
    readAgain,
  ],
  ...airSteps,
  'cold-loss': [
    noHeatDue,
    {
      text: 'Wrap it: straw bales, old carpet or leaves in sacks round it and a cover that breathes on top.',
      short: 'Wrap it in straw or leaves, with a cover that breathes.',
      deeds: ['cover'],
      methods: ['static-cage', 'hot-bin', 'turned-windrow', 'curing-heap', 'leaf-heap', 'worm-bed'],
      source: practice,
    },
    {
      text: 'Put 15-20 cm of finished compost over it, and let the blower run less in the cold.',
      short: 'Cover it with 15-20 cm compost; run the blower less.',
      deeds: ['cover'],
      methods: ['aerated-static-pile'],
      source: 'Lynch and Cherry: passively aerated winter windrows under 15-20 cm of compost',
    },
    {
      text: 'Make it larger: about 1 m3 is the usual least size, more in winter.',
      deeds: ['enlarge'],
      methods: turned,
      source: 'FAO soil texts; WSU compost fundamentals',
    },
    {
      text: 'Leave it shut until the weather is milder; a cold pile starts again by itself.',
      short: 'Leave it shut until milder weather; it starts again.',
      deeds: [],
      source: 'Lynch and Cherry: winter windrows froze, then composted 50-80 days',
    },
  ],
  'nitrogen-short': [
    noHeatDue,
    squeezeFirst,
    {
      text: 'Turn it and mix in a rich material: fresh grass, manure or coffee grounds, about one part in five.',
      short: 'Turn it and mix in rich material: grass or manure.',
      deeds: ['turn', 'add-nitrogen'],
      methods: turned,
      moisture: ['fine'],
      source: 'C:N 20-40 acceptable (NRAES-54); the amount: common practice, no source',
    },
    {
      text: 'Put the moisture right first, read it again after two days, and only then think of rich material.',
      short: 'Put the moisture right first; read again in 2 days.',
      deeds: [],
      moisture: ['too-dry', 'too-wet'],
      source: 'house plan: moisture before nitrogen',
    },
    {
      text: 'Leave it and keep it moist: it will rot slowly without much heat. Make the next mix richer.',
      short: 'Leave it, keep it moist; make the next mix richer.',
      deeds: [],
      methods: unturned,
      source: practice,
    },
  ],
  'nitrogen-excess': [
    {
      text: 'Turn it and mix in dry brown material: chips, straw or dry leaves. Stand upwind: ammonia.',
      short: 'Turn it, mix in dry chips or straw; stand upwind.',
      deeds: ['turn', 'add-carbon'],
      methods: turned,
      source: 'C:N 20-40 acceptable (NRAES-54)',
    },
    {
      text: 'Leave it open to the air: the ammonia passes off. Stand upwind. Build the next one with more brown.',
      short: 'Leave it open to air, stand upwind; read in 2 days.',
      deeds: [],
      source: practice,
    },
  ],
  spent: [
    squeezeFirst,
    {
      text: 'It looks dry: a dry pile looks finished and wakes up when wet. Water it slowly and read it for a week.',
      short: 'Dry looks finished too: water slowly, read for a week.',
      deeds: ['water'],
      moisture: ['too-dry'],
      source: 'The Composting Handbook: a pile too dry looks stable and wakes up when re-wetted',
    },
    {
      text: 'It is wet and may be airless rather than finished: stop watering, keep rain off and read it for a week.',
      short: 'Wet looks finished too: stop watering, read for a week.',
      deeds: ['let-dry'],
      moisture: ['too-wet'],
      source: 'The Composting Handbook: cooling may mean airless',
    },
    {
      text: 'Leave it to cure and keep it moist. Look and smell: dark, crumbly, earthy means it is getting there.',
      short: 'Leave it to cure; keep it moist. Look and smell.',
      deeds: [],
      source: 'AgriFutures: curing 3-6 weeks',
    },
    {
      text: 'For sale or seedlings have a stability test made; write "finished" in the journal once you are sure.',
      deeds: [],
      source: 'house plan: a person decides',
    },
  ],
  overheated: [
    noHeatDue,
    {
      text: 'Turn it once, so that live material from outside comes to the core.',
      short: 'Turn it once so live outside material reaches the core.',
      deeds: ['turn'],
      methods: turned,
      belowCelsius: 65,
      source: 'above about 71 C most organisms die (NRAES-54, from memory); the remedy: common practice',
    },
    squeezeFirst,
    {
      text: 'Leave it and keep it moist: life comes back from the cooler outside.',
      short: 'Leave it and keep it moist: life comes back from outside.',
      deeds: [],
      source: practice,
    },
  ],
  recovering: [
    {
      text: 'Leave it shut and read it again tomorrow: a fall after work on it recovers within two days.',
      short: 'Leave it shut; read it again tomorrow.',
      deeds: [],
      source: 'dips recover in 0.5-2 days (synthesis, unconfirmed)',
    },
  ],
};

/** Said of any cold trouble whose cause has no step left that is safe and fits. */
export const coldFallback: readonly AdviceStep[] = [
  { ...squeezeFirst, troubles: coldTroubles },
  {
    text: 'Change nothing on a guess: read it again tomorrow, and log what you see and smell from beside it.',
    short: 'Change nothing on a guess; read it again tomorrow.',
    deeds: [],
    source: 'ours',
  },
];
