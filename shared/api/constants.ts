/** Plain values of the API that screens need at run time; no zod here, so they cost nothing. */

/**
 * Header every changing call must carry (any value): a page of another site cannot set it without a preflight, which
 * this service never grants. OWASP cross-site request forgery sheet, custom request header.
 */
export const requestHeaderName = 'x-tilth-request';

/** Seconds between live ticks. */
export const liveTickSeconds = 5;
/** Seconds without a tick after which a screen says loudly that it is not live. */
export const liveLostSeconds = 15;

/** Longest shelving: a week. Shelving always ends by itself; what should stay away longer is taken out of service. */
export const longestShelvingMinutes = 7 * 24 * 60;

/** Longest side of a yard's map, in cells. */
export const longestMapSide = 40;

/** Longest span of an alarm report. */
export const longestReportDays = 400;

/** Shortest password taken; any characters, no composition rules. */
export const shortestPassword = 12;

/** Quality flags in the columns of a series, one small number a reading. */
export const qualityFlags = { good: 0, suspect: 1, bad: 2 } as const;

/** What `value` of a journal entry may be; kinds not named here take no number. */
export const journalValueRanges = {
  'hand-reading': { minimum: -30, maximum: 120, unit: 'C', required: true },
  watered: { minimum: 0, maximum: 100_000, unit: 'litre', required: false },
  'squeeze-test': { minimum: 1, maximum: 5, unit: '', required: true },
} as const;

/** Deepest a hand thermometer is believed to have been pushed. */
export const deepestHandMetres = 5;

/** A wrong press in the journal may be taken back this long by whoever made it. */
export const takeBackHours = 24;

/** Photos of the journal: what phones scale down to, and what the service takes. */
export const photoLongestPixels = 1600;
export const photoMostBytes = 700_000;
export const photoMediaType = 'image/jpeg';
