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

/** Whose way of writing days, times and numbers is followed (BCP 47). */
export const locale = 'en-GB';

/** A quantity with its unit. */
export const measures = {
  seconds: (shown: number | string) => `${shown} s`,
  minutes: (shown: number | string) => `${shown} min`,
  hours: (shown: number | string) => `${shown} h`,
  days: (shown: number | string) => `${shown} d`,
  metres: (shown: number | string) => `${shown} m`,
  centimetres: (shown: number | string) => `${shown} cm`,
  kilograms: (shown: number | string) => `${shown} kg`,
  cubicMetres: (shown: number | string) => `${shown} m3`,
  kilogramsPerCubicMetre: (shown: number | string) => `${shown} kg/m3`,
  litres: (shown: number | string) => `${shown} litres`,
  volts: (shown: number | string) => `${shown} V`,
  perHour: (shown: string) => `${shown}/h`,
} as const;

export const words = {
  product: 'Tilthwatch',
  tuneLimits: 'Try other limits on this past',
  toRecord: 'Heat record',
  first: 'First:',
  wouldTell: 'What would tell:',
  causesAndSteps: 'Likely causes, and every step',
  speaksFor: 'For it:',
  speaksAgainst: 'Against it:',
  noReading: 'no reading',
  noReadingFor: (long: string) => `no reading for ${long}`,
  justNow: 'just now',
  ago: (long: string) => `${long} ago`,
  noProbe: 'no probe placed',
  steady: 'steady',
  rising: 'rising',
  falling: 'falling',
  airIs: (temperature: string) => `air ${temperature}`,
  going: (word: string, howFast: string) => `${word} ${howFast}`.trim(),
  moistureIs: (share: string) => `${share} moisture`,
  sanitisationIs: (share: string) => `heat record ${share}`,
  cutWithoutProbe: 'Cut through the pile; no probe in it',
  cutWith: (points: string) => `Cut through the pile: ${points}`,
  pointIs: (position: string, reading: string) => `${position} ${reading}`,
  notLive: 'NOT LIVE',
  notLiveHint: 'This screen has lost its link to the service.',
  shownIsOf: (time: string) => `What it shows is of ${time}.`,
  shownIsOfOld: (time: string, long: string) => `What it shows is of ${time}, ${long} ago.`,
  live: 'live',
  noService: 'The service cannot be reached',
  noServiceHint: 'The service cannot be reached. Check the link and try again.',
  answered: (status: number) => `The service answered ${status}. Try again in a minute.`,
  tryAgain: 'Try again',
  fetching: 'Fetching the yard...',
  signIn: 'Sign in',
  noPiles: 'No pile is open in this yard yet.',
} as const;
