/** What is said of the days to come, in one place so that it can be translated. */
export const outlookWords = {
  nearlyCertain: 'nearly certain',
  veryUnlikely: 'very unlikely',
  inFive: (times: number) => `${times} in 5`,
  inTen: (times: number) => `${times} in 10`,
  aboveNow: (ceiling: string) => `It is above its ceiling of ${ceiling} now.`,
  notLikely: (ceiling: string, days: number, chance: string) =>
    `Not likely to come to its ceiling of ${ceiling} within ${days} days (${chance}).`,
  mayWithin: (ceiling: string, days: number, chance: string) =>
    `It may come to its ceiling of ${ceiling} within ${days} days: ${chance}.`,
  mayInAbout: (ceiling: string, middle: string, low: string, high: string, chance: string) =>
    `It may come to its ceiling of ${ceiling} in about ${middle} (${low} to ${high}): ${chance}.`,
  later: 'later',
  hotFor: (temperature: string, days: string, horizon: number) =>
    `${temperature} or more for ${days} of the next ${horizon} days.`,
  nearAir: (days: string, chance: string) => `Cooled to near the air in ${days}: ${chance}.`,
  dry: (days: string, chance: string) =>
    `Dry in ${days} if nobody waters it: ${chance} (estimated from its heat).`,
  aboutDays: (days: number) => `about ${days} ${days === 1 ? 'day' : 'days'}`,
  daysFromTo: (from: number, to: number) => `${from} to ${to} days`,
  fitted: 'Fitted to this pile’s own readings; if nobody turns, opens or waters it.',
  fittedBadly:
    'Fitted to this pile’s own readings; if nobody turns, opens or waters it. It has followed this pile badly over the last three days: trust it little.',
  ended: 'This pile has ended.',
  notModelled: 'No forecast for this kind of pile: it does not heat by itself. Its range is drawn instead.',
  noCore: 'No forecast yet: no core probe has sent a good reading. Two days of them are needed.',
  tooEarlyHours: (hours: number, needed: number, more: number) =>
    `No forecast yet: ${hours} hours of good core readings, ${needed} are needed. About ${more} more hours.`,
  tooEarlyDays: (hours: number, needed: number, more: number) =>
    `No forecast yet: ${hours} hours of good core readings, ${needed} are needed. About ${more} more days.`,
  coreSilent: (long: string) =>
    `No forecast now: the core has sent nothing good for ${long}. What it does since is not known.`,
} as const;
