/** The system's words for "nobody answers there", and PostgreSQL's own for a server that stops, starts or is full. */
const awayCodes = new Set([
  ...[
    'ECONNREFUSED',
    'ECONNRESET',
    'EPIPE',
    'ETIMEDOUT',
    'EHOSTUNREACH',
    'ENETUNREACH',
    'ENOTFOUND',
    'EAI_AGAIN',
  ],
  ...['57P01', '57P02', '57P03', '53300'],
]);
/** The driver's, which come without a code. */
const awayWords =
  /connection terminated|connection error and is not queryable|timeout exceeded when trying to connect|connection timeout/i;

/** Whether an error of records or readings says that their PostgreSQL cannot be reached, and nothing else is wrong. */
export function isDatabaseAway(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  const { code } = error as { readonly code?: unknown };
  if (typeof code === 'string' && (awayCodes.has(code) || /^08...$/.test(code))) return true;
  return awayWords.test(error.message) || isDatabaseAway(error.cause);
}
