import { readAgain, squeezeFirst } from './sharedSteps.ts';
import { practice, type StepsByCause, turned, unturned } from './step.ts';

/** For a cold pile that is short of air. */
export const airSteps: StepsByCause = {
  airless: [
    {
      text: 'Turn it and mix in coarse dry material, such as wood chips, so that air gets in and stays in.',
      short: 'Turn it and mix in coarse dry chips; stop watering.',
      deeds: ['turn', 'add-carbon', 'let-dry'],
      methods: turned,
      source: practice,
    },
    {
      text: 'Stop watering, keep rain off, and clear the air channels with a smooth pole.',
      short: 'Stop watering, keep rain off, clear the air channels.',
      deeds: ['let-dry', 'clear-channels'],
      methods: ['static-cage'],
      source: 'reference section 6: check that channels are open, never turn',
    },
    {
      text: 'Let the blower run longer, and look for water standing in the air pipes.',
      short: 'Run the blower longer; look for water in the pipes.',
      deeds: ['blow-air'],
      methods: ['aerated-static-pile'],
      source: practice,
    },
    {
      text: 'Stop feeding and watering, and lay dry bedding on top.',
      short: 'Stop feeding and watering; lay dry bedding on top.',
      deeds: ['let-dry', 'add-carbon'],
      methods: ['worm-bed'],
      source: practice,
    },
    {
      text: 'Stop watering, keep rain off with a roof that lets air pass, and lead water away from the base.',
      short: 'Stop watering, keep rain off, drain the base.',
      deeds: ['let-dry'],
      source: practice,
    },
    squeezeFirst,
    readAgain,
  ],
  packed: [
    {
      text: 'Turn it to loosen it, and mix in coarse chips so that it does not pack again.',
      short: 'Turn it to loosen it; mix in coarse chips.',
      deeds: ['turn', 'add-carbon'],
      methods: turned,
      source: 'air resistance significantly higher after 21 days unturned (Barrington et al. 2002)',
    },
    {
      text: 'Clear the air channels with a smooth pole, standing beside it.',
      short: 'Clear the air channels with a smooth pole.',
      deeds: ['clear-channels'],
      methods: ['static-cage'],
      source: 'reference section 6',
    },
    {
      text: 'Check that the blower runs and air comes out all over; let it run longer.',
      short: 'Check that the blower runs and air comes through.',
      deeds: ['blow-air'],
      methods: ['aerated-static-pile'],
      source: practice,
    },
    {
      text: 'Do not press it down or walk on it; build the next one with more coarse material.',
      short: 'Keep weight off it; use more coarse chips next time.',
      deeds: [],
      methods: unturned,
      source: practice,
    },
    squeezeFirst,
    readAgain,
  ],
  'air-path-blocked': [
    {
      text: 'Look down each air channel with a lamp and clear it with a smooth pole.',
      short: 'Clear the air channels with a smooth pole.',
      deeds: ['clear-channels'],
      methods: ['static-cage'],
      source: 'reference section 6: check that channels are open',
    },
    {
      text: 'Check that the blower runs, its timer is right, and the pipes are clear and drained.',
      short: 'Check the blower, its timer and the air pipes.',
      deeds: ['go-near'],
      methods: ['aerated-static-pile'],
      source: practice,
    },
    readAgain,
  ],
};
