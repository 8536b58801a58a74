import type { DutyShift } from '../../../../shared/messages/dutyPlan.ts';

/** Words of the duty screen, in one place so that they can be translated. */
export const text = {
  lead: 'Who is told of an alarm, hour by hour, and how it goes on when nobody answers.',
  noTurns: 'There are no turns of duty: everybody who wants texts gets them, whatever the hour.',
  nowOnDuty: 'Told now of what needs somebody today:',
  nobodyNow: 'nobody can be reached',
  afterThem: (first: string, then: string) => `${first}, then ${then}`,
  nextDays: 'The next seven days',
  nobody: 'everybody',
  nobodyHint: 'Where nobody has a turn, everybody who wants texts is told.',
  holiday: 'holiday',
  turns: 'Turns',
  addTurn: 'Add a turn',
  add: 'Add it',
  who: 'Who',
  told: 'Told',
  turn: (person: string, hours: string, order: string) => `${person}: ${hours}, told ${order}`,
  turnOn: (person: string, days: string, hours: string, order: string) =>
    `${person}: ${days}, ${hours}, told ${order}`,
  onHolidaysIs: (how: string) => `On holidays: ${how}`,
  weekdays: 'On these days',
  noWeekday: 'Tick at least one day of the week.',
  from: 'From',
  to: 'To',
  toHint: 'The same as "from" is a whole day; earlier is on the next day.',
  onHolidays: 'On holidays',
  remove: 'Remove',
  unreachable: 'cannot be reached by anything: passed over',
  holidays: 'Holidays',
  addHoliday: 'Add a holiday',
  day: 'Day',
  away: 'Away',
  addAway: 'Add somebody who is away',
  firstDay: 'First day',
  lastDay: 'Last day',
  quiet: 'Quiet hours',
  quietOn: 'What can wait is kept for one summary in the morning',
  quietWakes: 'Sent at once all the same',
  escalate: 'When nobody answers',
  escalateLead: 'Minutes without an answer until the next person is told. Empty: never.',
  perHour: 'Most texts a person gets in an hour',
  perHourHint: 'Half of them about what can wait. Fire danger is not counted and always sent.',
  group: 'Seconds within which texts are told together',
  groupHint:
    'The first text goes at once; what comes within this time after it goes in one. Fire danger never waits. 0: none wait.',
  regular: 'Regular texts',
  digest: 'A weekly summary to owners',
  monthReport: 'On the first of a month, the month before in one text to owners',
  monthReportHint: 'The whole report is a page that can be printed.',
  openReport: 'Open the alarm report',
  allWell: 'A daily text that all is well, to whoever is on duty',
  allWellHint: 'With it, silence means that something is wrong.',
  at: 'At',
  weekday: 'Day of the week',
  save: 'Save the plan',
  unsaved: 'There are changes that are not saved yet.',
  saved: 'Saved.',
  undo: 'Drop them',
  changedMeanwhile: 'Somebody else saved another plan meanwhile. Take theirs, then change it again.',
  takeTheirs: 'Take theirs',
  byWhom: (person: string, time: string) => `Last saved by ${person}, ${time}`,
} as const;

export const weekdayShort = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] as const;
export const weekdayLong = [
  'Monday',
  'Tuesday',
  'Wednesday',
  'Thursday',
  'Friday',
  'Saturday',
  'Sunday',
] as const;

export const orderWords = ['first', 'second, when nobody answers', 'third'] as const;

export const holidayWords: Readonly<Record<DutyShift['holidays'], string>> = {
  'as-any-day': 'as on any day',
  not: 'not',
  only: 'on holidays alone',
};
