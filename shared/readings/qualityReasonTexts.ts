import type { QualityReason } from './reading.ts';

export interface QualityReasonText {
  /** What is wrong, short enough for a table. */
  readonly what: string;
  /** What to do about it. */
  readonly action: string;
}

/** The words people see for each reason a reading is not good. */
export const qualityReasonTexts: Readonly<Record<QualityReason, QualityReasonText>> = {
  'out-of-range': {
    what: 'outside what the sensor can measure',
    action: 'Check that the channel is set up as the right kind of sensor, then its wiring.',
  },
  'did-not-answer': {
    what: 'the sensor did not answer',
    action: 'Check the cable and plug for damage or damp; swap the sensor if it stays silent.',
  },
  'conversion-failed': {
    what: 'the sensor could not finish measuring',
    action: 'It probably lacks power: check battery and supply wire, and that the probe waits long enough.',
  },
  'crc-failed': {
    what: 'the data came garbled from the sensor',
    action: 'Look for a long, damaged or badly joined cable.',
  },
  'power-on-value': {
    what: 'the start-up value of the sensor, not a measurement',
    action: 'Nothing to do for one; if it repeats, the sensor loses power: check battery and wiring.',
  },
  'bus-stuck-low': {
    what: 'exactly 0 while everything around it is not: a short in the cable',
    action: 'Check the cable and plug for a short or for water.',
  },
  'future-time': {
    what: 'the time on it has not come yet',
    action: "Set the probe's clock, or let it send times relative to now.",
  },
  outlier: {
    what: 'far from the readings around it',
    action: 'Nothing to do for one; if it repeats, check the cable and where the probe sits.',
  },
  'impossible-rate': {
    what: 'changed faster than a pile can',
    action: 'If the pile was opened or the probe pulled, write it in the journal; if not, check the probe.',
  },
  stuck: {
    what: 'has not moved for hours while others have',
    action: 'Check by hand with a thermometer; restart or swap the probe.',
  },
  'disagrees-with-pair': {
    what: 'differs from the other probe at the same spot',
    action: 'Check both by hand with a third thermometer; calibrate or swap the wrong one.',
  },
  'calibration-stale': {
    what: 'the calibration is overdue',
    action:
      'Check the sensor against a known temperature or a weighed and dried sample, and enter the result.',
  },
};
