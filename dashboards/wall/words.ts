import type { WallSettings } from './settings.ts';

type Choices<Value extends string> = Readonly<Record<Value, string>>;

/** Words of the wall that the app does not share, in one place so that they can be translated. */
export const wallWords = {
  notSignedIn: 'This screen is not signed in',
  notSignedInHint: "Ask the yard's owner for a wall link, or sign in.",
  allSeen: 'Every alarm has been seen',
  nothingStanding: 'No alarm is standing',
  notSeenYet: (count: number) => `${count} not seen yet`,
  rainIs: (millimetres: string) => `rain ${millimetres} mm`,
  lastDay: 'in 24 h',
  stateFor: (state: string, long: string) => `${state}, ${long}`,
  stateAndMore: (state: string, others: number) => `${state}, +${others}`,
  page: (page: number, pages: number) => `part ${page} of ${pages}`,
  // This screen
  thisScreen: 'This screen',
  order: 'Order',
  show: 'Show',
  diagonal: 'Screen, corner to corner, inches',
  dark: 'Dark',
  darkFrom: 'Dark from, hour',
  lightFrom: 'Light from, hour',
  keptHere: 'Kept in this browser only.',
  toTheYard: 'To the yard',
} as const;

export const orderWords: Choices<WallSettings['order']> = {
  worst: 'worst first',
  place: 'by place',
  map: 'by the yard’s map',
};

export const showWords: Choices<WallSettings['show']> = {
  all: 'every pile at once',
  far: 'as many as read from 5 m, in turn',
};

export const nightWords: Choices<WallSettings['night']> = {
  clock: 'at night, by the yard’s clock',
  always: 'always: a dark room',
  never: 'never: a bright room',
};
