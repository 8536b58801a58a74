/** Words of the page that tells how the program itself stands. */
export const text = {
  lead: 'How the program stands just now. It looks again every few seconds.',
  readings: 'Readings',
  stored: 'Stored since the start',
  onTheirWay: 'Taken in, not stored yet',
  lastStored: 'Last one stored',
  none: 'none yet',
  couldNotStore: (count: string) =>
    `Could not be stored: ${count}; their probes keep them. See that the disk has room.`,
  elsewhere: 'Another process takes the readings in; its own /metrics has the numbers.',
  influxIs: (state: string) => `InfluxDB: ${state}`,
  waiting: 'Wait to be given to it',
  waitingSince: (count: string, time: string) => `${count}, since ${time}`,
  pace: 'Catching up',
  paceIs: (readings: string, long: string) => `${readings} readings a second, ${long} left`,
  given: 'Given since the start',
  refused: 'Refused one by one',
  refusedIs: (count: string) => `${count}; they are still stored here`,
  space: 'Space for readings here',
  gigabytes: (size: string) => `${size} GB`,
  spaceOf: (used: string, limit: string) => `${used} of ${limit}`,
  spaceLow: (used: string, limit: string) => `${used} of ${limit}, running low`,
  spaceFull: (used: string, limit: string) => `${used} of ${limit}, used up`,
  program: 'This program',
  running: 'Running for',
  screens: 'Screens listening',
} as const;

/** Short words for where forwarding stands; the long ones come with it. */
export const stateWords: Readonly<Record<string, string>> = {
  'caught-up': 'Has everything',
  'catching-up': 'Catching up',
  away: 'Cannot be reached',
  busy: 'Cannot write just now',
  'not-permitted': 'Does not let us in',
  'not-found': 'Database not found',
  refused: 'Takes none of the readings',
  'local-store': 'Our own disk is in trouble',
};
