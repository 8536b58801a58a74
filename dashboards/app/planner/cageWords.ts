/** Words of the planner's cage and its air, in one place so that they can be translated. */
export const cageWords = {
  cage: 'What it stands in',
  form: 'Form',
  formPanel: 'A wire panel, rolled up',
  formRadius: 'A round cage of known size',
  formBox: 'A box',
  panelLength: 'Panel length, m',
  panelHint: 'The wire before it is rolled up.',
  overlap: 'Ends overlap by, m',
  radius: 'Radius (half across), m',
  length: 'Length, m',
  width: 'Width, m',
  height: 'Height, m',
  wallQuestion: 'Does air come through the wall?',
  wallWire: 'Yes: wire, cloth, slats with gaps',
  wallBoards: 'No: boards, blocks, sheet',
  topQuestion: 'Is the top open?',
  topYes: 'Yes, or covered loosely',
  topNo: 'No: a lid or sheet keeps air out',
  baseQuestion: 'Can air come in from below?',
  baseYes: 'Yes: pallet, coarse brush, pipes',
  baseNo: 'No: it stands on the ground',
  // Channels
  channels: 'Air channels',
  pipesAcross: 'Pipes are, mm across',
  nothingFarther: 'Nothing farther from air than, m',
  fartherHint: '0.30 m: about 1 ft, from memory, unconfirmed.',
  howMany: 'How many, and how far the farthest place then is from air',
  best: 'as few as will do',
  bestCount: (count: number) => `as few as will do: ${count}`,
  noAir: 'no air',
  countFar: (count: number, far: string) => (count === 0 ? `none: ${far}` : `${count}: ${far}`),
  countEnough: (count: number, far: string) => `${count === 0 ? 'none' : count}: ${far}, enough`,
  // What is drawn
  drawn: 'Drawn to scale',
  across: (metres: string) => `${metres} m across`,
  high: (metres: string) => `${metres} m high`,
  ofWall: (metres: string) => `${metres} m of wall`,
  airless:
    'No air gets in: wall, top and base are closed and there is no channel. Open one of them or stand pipes in it.',
  drawnFull: 'Drawn full; plan a mix to see how far it fills.',
  tooMuch: (cubicMetres: string) =>
    `The mix fills it and ${cubicMetres} m3 is left over: make less, or a bigger cage.`,
  fills: (percent: number, metres: string) =>
    `The mix fills ${percent} % of it: ${metres} m high when fresh.`,
  tooLittle:
    'Under about 0.75 m3 a heap loses its warmth fast (extension sheets, seen second-hand: 0.77 to 1 m3 at least).',
  plan: 'From above',
  planSays: (channels: string, centimetres: number) =>
    `From above: ${channels}. The cross, ${centimetres} cm from the middle, is farthest from air.`,
  section: 'Cut through the probe',
  sectionSays: (high: string, channels: string, deep: string) =>
    `Cut: pile ${high} m high, ${channels}; probe tip ${deep} m below the top.`,
  deep: (metres: string) => `${metres} m deep`,
  // The probe
  channelsTerm: 'Channels',
  nothingFartherFrom: (channels: string, metres: string, air: string) =>
    `${channels}; nothing is farther than ${metres} m from ${air}, seen from above`,
  airOfChannels: 'one of them',
  airOfWall: 'the wall',
  airOfBoth: 'one of them or the wall',
  farthestTerm: 'Farthest from any air',
  farthest: (metres: string) => `${metres} m, marked with a cross`,
  farthestRing: (metres: string) =>
    `${metres} m, marked with a cross; anywhere else at that distance from the middle is as far`,
  probeTerm: 'Core probe',
  pushAtWall:
    'Push it straight down at the cross, right against the wall, until the tip is {depth} ({above} m above the base). The pile settles: look after a week and push it on.',
  pushInFromWall:
    'Push it straight down at the cross, {fromWall} m in from the nearest wall, until the tip is {depth} ({above} m above the base). The pile settles: look after a week and push it on.',
  belowTop: (metres: string) => `${metres} m below the top`,
  atWall:
    'Boards take heat away there: to see the hottest place, stand another probe farther in, midway between channels.',
} as const;
