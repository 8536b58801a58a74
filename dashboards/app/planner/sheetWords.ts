/** Words of the planner's build sheet, in one place so that they can be translated. */
export const sheetWords = {
  build: (plan: string) => `Build sheet: ${plan}`,
  needsMix: 'Plan a mix first: the sheet is made from it.',
  madeOn: (yard: string, day: string) =>
    `${yard}, ${day}. Amounts by plan, from book figures unless measured.`,
  leftOut: (why: string) => `Left out: ${why}`,
  cautions: 'Mind',
  print: 'Print this sheet',
  // The table
  amounts: 'Amounts',
  ingredient: 'Ingredient',
  kilograms: 'kg',
  buckets: (litres: string) => `${litres} litre buckets`,
  perBucket: 'kg a bucket',
  eachLayer: 'each layer',
  inBuckets: (count: string) => `${count} buckets`,
  notKnown: 'not known',
  water: 'Water',
  all: 'All',
  layers: (layers: number, centimetres: number) => `${layers} layers of ${centimetres} cm`,
  packedLayers: (cubicMetres: string, layers: number, centimetres: number) =>
    `about ${cubicMetres} m3 packed, ${layers} layers of ${centimetres} cm`,
  // The steps
  round: (metres: string) => `${metres} m across`,
  box: (length: string, width: string) => `${length} by ${width} m`,
  rollPanel: (panel: string, size: string, high: string) =>
    `Roll the ${panel} m panel into a ring, ${size}, ${high} m high.`,
  rollPanelOnBase: (panel: string, size: string, high: string) =>
    `Roll the ${panel} m panel into a ring, ${size}, ${high} m high, on a pallet or coarse brush.`,
  setUp: (size: string, high: string) => `Set up the container, ${size}, ${high} m high.`,
  setUpOnBase: (size: string, high: string) =>
    `Set up the container, ${size}, ${high} m high, on a pallet or coarse brush.`,
  line: (long: string, high: string) =>
    `Line it with cloth ${long} m long and ${high} m high (with overlap and folds).`,
  soak: (litres: string) =>
    `The day before, soak the dry ingredients in some of the ${litres} litres: dry leaves, straw and chips shed water that is only poured over them. Lift them out and let them drip; use what drips off again.`,
  standPipes: (count: number, millimetres: number, metres: string, where: string) =>
    `Stand ${count === 1 ? '1 pipe' : `${count} pipes`}, ${millimetres} mm across and ${metres} m long, upright: ${where}.`,
  fromMiddle: (places: string) => `From the middle of the floor, in m: ${places}.`,
  pipeAt: (number: number, along: string, across: string) => `${number}: ${along} along, ${across} across`,
  fill: (layers: number, centimetres: number) =>
    `Fill in ${layers} layers of ${centimetres} cm. Mix each one as it goes in, sprinkle the rest of the water on it, and do not tread it down.`,
  heavyBucket: (kilograms: string) => `A full bucket of the heaviest weighs ${kilograms} kg: fill it half.`,
  squeezeWet:
    'Squeeze a handful from several layers: a few drops should come between the fingers. Add water, or something dry, until it does.',
  squeezeMoist:
    'Squeeze a handful from several layers: it should hold together and just not drip. Add water, or something dry, until it does.',
  leftOver: (cubicMetres: string) => `About ${cubicMetres} m3 will be left over.`,
  probe: (fromWall: string, belowTop: string, aboveBase: string) =>
    `Core probe: at the cross, ${fromWall} m in from the wall, tip ${belowTop} m below the top (${aboveBase} m above the base). A second one 0.15 m in from the wall shows the edge. As the pile settles, push them on.`,
  pullPipes: (day: string) =>
    `Pull the pipes on day ${day}, if the channels stand by themselves. Mind the steam.`,
  // Starting the pile
  start: 'Start the pile from it',
  startHint: 'When it is built, say so here: the recipe goes into its journal.',
  halfStarted: (pile: string) =>
    `${pile} is started, but its recipe is not in the journal yet. Press again to write it.`,
  writeRecipe: 'Write the recipe into its journal',
  startPile: 'Start this pile',
  name: 'Name',
  nameHint: 'Short: it goes into texts.',
  place: 'Where it stands',
  placeHint: 'Bay 3, by the east fence...',
  method: 'How it is run',
} as const;
