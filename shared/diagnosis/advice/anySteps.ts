import { practice, type StepsByCause } from './step.ts';

/** Causes whose remedy is the same whatever the trouble. */
export const anySteps: StepsByCause = {
  'probe-wrong': [
    {
      text: 'Read the same place with a hand thermometer, log it, and see that the probe sits in the core and its cable is sound and dry.',
      short: 'Check the probe: in the core? Compare by hand, log it.',
      deeds: ['push-in'],
      source: 'thermometer practice, reference section 9',
    },
    {
      text: 'Until it is checked, judge the pile by another probe or by hand.',
      deeds: [],
      source: practice,
    },
  ],
  other: [
    {
      text: 'Squeeze a handful, smell it and look inside; log what you find, so that the next judgement knows more.',
      short: 'Squeeze it, smell it, look inside; log what you find.',
      deeds: ['handful'],
      source: practice,
    },
  ],
};
