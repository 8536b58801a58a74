/** Words of the planner's predicted course, in one place so that they can be translated. */
export const heatWords = {
  prediction: 'What it will do',
  needs: (what: string) => `To reckon a course it needs ${what}.`,
  needsMix: 'a mix: give amounts under Mix',
  needsContainer: 'a container: give its size under Cage and air',
  needsBoth: 'To compare, give amounts under Mix and a size under Cage and air.',
  running: 'Reckoning the course',
  failed: (why: string) => `The course could not be reckoned: ${why}`,
  workerEnded: 'it ended by itself. Load the page again to try once more.',
  // How it is kept
  air: 'Air on average',
  start: 'Mix when built',
  water: 'Water every other day, litres',
  pullPipes: 'Pull the pipes on day',
  pullNever: 'never',
  pullHint: 'Empty: they stay in.',
  turn: 'Turn every so many days',
  turnNever: 'never turned',
  turnHint: 'Empty: never turned, as a static cage.',
  // Composted first
  composted: 'Compost it hot first?',
  compare: 'Compare with composting some of it by itself first',
  which: 'Compost first',
  wholeMix: 'the whole mix',
  daysHot: 'For how many days, hot',
  daysHotHint: (temperature: string) =>
    `Kept above ${temperature} and moist, turned and watched like any hot heap.`,
  // The curves
  core: 'core',
  fresh: 'fresh',
  compostedFirst: 'composted first',
  oneLine: (low: string, high: string) =>
    `Line: the core, the plan as it stands. Shaded: four runs in five of piles this plan might turn out to be. Dotted: ${low} and ${high}.`,
  twoLines: (solid: string, dashed: string, low: string, high: string) =>
    `Lines: the core; ${solid} solid, ${dashed} dashed. Shaded: four runs in five of piles this plan might turn out to be. Dotted: ${low} and ${high}.`,
  lowOf: (line: string) => `${line}, low`,
  highOf: (line: string) => `${line}, high`,
  plotSays: (days: number, lines: string) => `Predicted core temperature over ${days} days. ${lines}`,
  lineSays: (line: string, peak: string, day: number) => `${line}: peak ${peak} on day ${day}`,
  // The same in words
  days: (middle: string, low: string, high: string) =>
    `${middle} ${middle === '1.0' ? 'day' : 'days'} (${low} to ${high})`,
  band: (middle: string, low: string, high: string) => `${middle} (${low} to ${high})`,
  peakTerm: 'Peak',
  peak: (temperature: string, day: number) => `${temperature}, about day ${day}`,
  daysAt: (temperature: string) => `Days at ${temperature} or more`,
  daysTooHot: (temperature: string) => `Days too hot: ${temperature} or more`,
  overCeiling: (temperature: string) => `Over the ${temperature} ceiling`,
  inRuns: (count: number, runs: number) => `in ${count === 0 ? 'none' : count} of ${runs} runs`,
  driestTerm: 'Driest the core gets',
  driest: (share: string) => `${share} moisture`,
  leftTerm: 'Left after three months',
  left: (share: string) => `${share} of the volume`,
  often: (count: number, runs: number, temperature: string) =>
    `${count} of ${runs} runs reach ${temperature}`,
  unlikely: (often: string) =>
    `Unlikely to heat: only ${often}. See the gauges under Mix for what is out of range.`,
  mayHeat: (often: string) => `May or may not heat: ${often}.`,
  reaches: (temperature: string, day: number, often: string) =>
    `Should reach ${temperature} about day ${day} (${often}).`,
  hotTooLong: (days: number) =>
    `Then it stays hot for longer than the ${days} days a never-turned pile is usually given; weeks of heat cost its fungi (common practice, no source). Compare composting it first.`,
  // Side by side
  sideBySide: 'Fresh and composted first, side by side',
  freshColumn: 'Fresh',
  compostedColumn: 'Composted first',
  weight: 'Weight',
  volume: 'Volume packed',
  ratio: 'C:N',
  moisture: 'Moisture',
  notKnown: 'not known',
  nitrogenLost: 'Nitrogen lost beforehand',
  noneLost: 'none',
  lost: (share: string, kilograms: string) => `${share} (${kilograms} kg)`,
  waterToAdd: 'Water to add when building',
  asPlanned: 'as planned',
  peakOfMain: 'Peak of the main pile',
  runsReach: (temperature: string) => `Runs that reach ${temperature}`,
  firstHint: (temperature: string) =>
    `The first heap does the heating instead: it must be turned, watered and watched. A main pile that stays below ${temperature} earns no heat record of its own. Nitrogen lost: up to 40 % of what goes with the matter that is used up (from memory, unconfirmed).`,
  // What it rests on
  restsOn: 'What this rests on',
  restsModel:
    'A heat and water model of core, shoulder and edge, with your container, its air, your watering and steady weather. C:N stands for how quickly the mix works: that rule of thumb is ours, without a source.',
  restsBand:
    'The band is sixteen runs: the plan as typed, and fifteen with rates, moisture, bulk density, packing and airflow moved within what such numbers usually miss. It is not a measured error.',
  restsMisses: (atPeak: string, onAverage: string) =>
    `Models miss. None of those in a published review (Mason 2006, abstract seen) came within ${atPeak} at the peak and ${onAverage} on average. Use it to choose between plans; let a probe tell you what the pile does.`,
  restsDensity:
    'Bulk density moves the course most, and books know it least. Weigh a full bucket of each ingredient and type it in.',
} as const;
