import type { AlarmState, ConditionId, Priority } from '../../shared/alarms/alarm.ts';
import type { JournalKind } from '../../shared/yard/journal.ts';
import type { PileMethod } from '../../shared/yard/method.ts';
import type { Position, Stage } from '../../shared/yard/yard.ts';

/** Every word the screens show that does not come from the service, in one place so that it can be translated. */
export const stageWords: Readonly<Record<Stage, string>> = {
  lag: 'warming up',
  heating: 'heating',
  hot: 'hot',
  cooling: 'cooling',
  curing: 'curing',
  finished: 'finished',
};

export const methodWords: Readonly<Record<PileMethod, string>> = {
  'static-cage': 'static cage',
  'hot-bin': 'hot bin',
  'turned-windrow': 'windrow',
  'aerated-static-pile': 'aerated pile',
  'worm-bed': 'worm bed',
  'curing-heap': 'curing heap',
  'leaf-heap': 'leaf heap',
};

export const positionWords: Readonly<Record<Position, string>> = {
  core: 'core',
  shoulder: 'shoulder',
  edge: 'edge',
  base: 'base',
  air: 'air',
};

export const alarmStateWords: Readonly<Record<AlarmState, string>> = {
  normal: 'normal',
  unacknowledged: 'nobody has seen it',
  acknowledged: 'seen',
  'returned-unacknowledged': 'over, nobody saw it',
  'latched-unacknowledged': 'held until someone looks',
  'latched-acknowledged': 'seen, held until reset',
  shelved: 'shelved',
  suppressed: 'expected just now',
  'out-of-service': 'out of service',
};

/** The same, short enough for a tile seen from across the yard. */
export const alarmStateShort: Readonly<Record<AlarmState, string>> = {
  normal: '',
  unacknowledged: 'not seen',
  acknowledged: 'seen',
  'returned-unacknowledged': 'over, not seen',
  'latched-unacknowledged': 'held, not seen',
  'latched-acknowledged': 'held, seen',
  shelved: 'shelved',
  suppressed: 'expected',
  'out-of-service': 'out of service',
};

export const conditionWords: Readonly<Record<ConditionId, string>> = {
  'too-hot-ceiling': 'core too hot',
  'too-hot-early-notice': 'getting hot',
  'too-hot-heading-there': 'heading for too hot',
  'too-hot-fire-danger': 'FIRE DANGER',
  'too-hot-too-long': 'hot for too long',
  'too-cold-never-heated': 'has not heated',
  'too-cold-fell-short': 'cooled too soon',
  'too-cold-range': 'out of its range',
  'drying-out-measured': 'drying out',
  'drying-out-estimated': 'likely drying out',
  'too-wet': 'too wet',
  stalled: 'stalled',
  'probe-silent': 'probe silent',
  'probe-bad-values': 'probe not trusted',
  'probe-stuck': 'probe stuck',
  'probe-disagreeing': 'probes disagree',
  'probe-battery-low': 'probe battery low',
  'probe-clock-wrong': 'probe clock wrong',
  'probe-calibration-due': 'probe check due',
  'service-broker-away': 'MQTT broker away',
  'service-database-away': 'database away',
  'service-disk-low': 'disk nearly full',
  'service-messages-not-leaving': 'texts are not leaving',
  'service-clock-step': 'clock jumped',
};

export const priorityWords: Readonly<Record<Priority, string>> = {
  highest: 'act now',
  high: 'act today',
  medium: 'look soon',
  low: 'when you are there',
};

export const journalWords: Readonly<Record<JournalKind, string>> = {
  built: 'Built',
  turned: 'Turned',
  watered: 'Watered',
  added: 'Material added',
  opened: 'Opened',
  'channels-pulled': 'Channel pipes pulled',
  'worms-added': 'Worms added',
  covered: 'Covered',
  uncovered: 'Uncovered',
  moved: 'Moved',
  'probe-pulled': 'Probe pulled out',
  'probe-returned': 'Probe put back',
  'hand-reading': 'Hand reading',
  'squeeze-test': 'Squeeze test',
  note: 'Note',
  finished: 'Finished',
};

export const words = {
  tuneLimits: 'Try other limits on this past',
  toRecord: 'Heat record',
  first: 'First:',
  wouldTell: 'What would tell:',
  causesAndSteps: 'Likely causes, and every step',
  speaksFor: 'For it:',
  speaksAgainst: 'Against it:',
  noReading: 'no reading',
  noProbe: 'no probe placed',
  steady: 'steady',
  rising: 'rising',
  falling: 'falling',
  moisture: 'moisture',
  sanitisation: 'heat record',
  notLive: 'NOT LIVE',
  notLiveHint: 'This screen has lost its link to the service.',
  shownIsOf: 'What it shows is of',
  live: 'live',
  air: 'air',
  rain: 'rain',
  lastDay: 'in 24 h',
  notSeenYet: 'not seen yet',
  since: 'for',
  page: 'part',
  of: 'of',
  thisScreen: 'This screen',
  keptHere: 'Kept in this browser only.',
  toTheYard: 'To the yard',
  noService: 'The service cannot be reached',
  tryAgain: 'Try again',
  fetching: 'Fetching the yard...',
  signIn: 'Sign in',
  notSignedIn: 'This screen is not signed in',
  notSignedInHint: "Ask the yard's owner for a wall link, or sign in.",
  allSeen: 'Every alarm has been seen',
  nothingStanding: 'No alarm is standing',
  confirmTitle: 'Is it you?',
  confirmWhy:
    'Where alarms go, and who may change things, is changed only by somebody who has just shown their password.',
  confirmLabel: 'Password of',
  confirmButton: 'It is me',
  confirmNot: 'Leave it as it was',
  noProbes: 'No probe stands in any pile yet: nobody is watching.',
  goOn: 'Go on with the first steps',
  noPiles: 'No pile is open in this yard yet.',
} as const;
