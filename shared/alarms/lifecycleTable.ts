import type { AlarmEvent, AlarmState } from './alarm.ts';

export type AlarmEventKind = AlarmEvent['kind'];

/**
 * What an event does in a state: a state to go to, or
 * - `stay`: nothing to do;
 * - `refuse`: a person asked for what makes no sense now;
 * - `settle`: an unacknowledged alarm cleared: latched, returned-unacknowledged or normal, as the condition wants it;
 * - `settle-acknowledged`: an acknowledged one cleared: latched or normal;
 * - `release`: reset of a latched, unacknowledged alarm: still to be acknowledged, if the condition wants that;
 * - `reappear`: it comes out of hiding: as a new alarm when the condition is true underneath, else latched or normal;
 * - `underneath`: hidden, but the change of the condition is kept for when it comes out.
 */
export type Outcome =
  | AlarmState
  | 'stay'
  | 'refuse'
  | 'settle'
  | 'settle-acknowledged'
  | 'release'
  | 'reappear'
  | 'underneath';

/** What any visible alarm can be taken into. */
const hiding = {
  shelve: 'shelved',
  suppress: 'suppressed',
  'take-out-of-service': 'out-of-service',
  unshelve: 'refuse',
  unsuppress: 'stay',
  'return-to-service': 'refuse',
} as const;

/** While hidden, the state underneath keeps being evaluated and nothing is signalled. */
const hidden = {
  'became-active': 'underneath',
  'returned-to-normal': 'underneath',
  acknowledge: 'refuse',
  're-alarm': 'stay',
  reset: 'refuse',
  suppress: 'stay',
  unsuppress: 'stay',
  unshelve: 'refuse',
  'return-to-service': 'refuse',
} as const;

/**
 * Every state by every event. States and the main rows follow public restatements of ISA-18.2 / IEC 62682 (reference
 * pack 5.2); latched rows and what happens on coming out of hiding are from memory there (unconfirmed) and our choice.
 */
export const lifecycleTable: Readonly<Record<AlarmState, Readonly<Record<AlarmEventKind, Outcome>>>> = {
  normal: {
    ...hiding,
    'became-active': 'unacknowledged',
    'returned-to-normal': 'stay',
    acknowledge: 'refuse',
    're-alarm': 'stay',
    reset: 'refuse',
  },
  unacknowledged: {
    ...hiding,
    'became-active': 'stay',
    'returned-to-normal': 'settle',
    acknowledge: 'acknowledged',
    're-alarm': 'stay',
    reset: 'refuse',
  },
  acknowledged: {
    ...hiding,
    'became-active': 'stay',
    'returned-to-normal': 'settle-acknowledged',
    acknowledge: 'stay',
    're-alarm': 'unacknowledged',
    reset: 'refuse',
  },
  'returned-unacknowledged': {
    ...hiding,
    'became-active': 'unacknowledged',
    'returned-to-normal': 'stay',
    acknowledge: 'normal',
    're-alarm': 'stay',
    reset: 'refuse',
  },
  'latched-unacknowledged': {
    ...hiding,
    'became-active': 'unacknowledged',
    'returned-to-normal': 'stay',
    acknowledge: 'latched-acknowledged',
    're-alarm': 'stay',
    reset: 'release',
  },
  'latched-acknowledged': {
    ...hiding,
    'became-active': 'unacknowledged',
    'returned-to-normal': 'stay',
    acknowledge: 'stay',
    're-alarm': 'latched-unacknowledged',
    reset: 'normal',
  },
  shelved: { ...hidden, shelve: 'shelved', unshelve: 'reappear', 'take-out-of-service': 'out-of-service' },
  suppressed: {
    ...hidden,
    shelve: 'shelved',
    unsuppress: 'reappear',
    'take-out-of-service': 'out-of-service',
  },
  'out-of-service': {
    ...hidden,
    shelve: 'refuse',
    'take-out-of-service': 'stay',
    'return-to-service': 'reappear',
  },
};
