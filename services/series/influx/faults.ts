import { HttpError, RequestTimedOutError } from '@influxdata/influxdb-client';
import { ArchiveFault, type ArchiveFaultKind } from '../archive.ts';

/** Turns what the client rejected with into a fault that says what to do about it. `place` must hold no secret. */
export function faultOf(error: unknown, place: string): ArchiveFault {
  if (error instanceof ArchiveFault) return error;
  if (error instanceof HttpError) return httpFault(error, place);
  if (isTimeout(error)) {
    return new ArchiveFault('away', `${place} did not answer in time`, { tookTooLong: true });
  }
  return new ArchiveFault('away', `${place} cannot be reached: ${reason(error)}`);
}

/** The client reports a passed deadline as an aborted request. */
function isTimeout(error: unknown): boolean {
  if (error instanceof RequestTimedOutError) return true;
  return error instanceof Error && ['AbortError', 'TimeoutError'].includes(error.name);
}

function httpFault(error: HttpError, place: string): ArchiveFault {
  const kind = isOutOfSpace(error) ? 'busy' : kindOf(error.statusCode);
  const message = `${place} answered ${error.statusCode}: ${answerText(error)}`;
  return new ArchiveFault(kind, message, { retryAfterMs: retryAfterMs(error) });
}

/**
 * A full disk of its own InfluxDB 1.x also tells with 400 "partial write: write ...: no space left on device", in which
 * the lines are not at fault: putting them aside would lose them.
 */
function isOutOfSpace({ body }: HttpError): boolean {
  return /no space left on device|not enough space on the disk|disk quota exceeded/i.test(body ?? '');
}

function kindOf(status: number): ArchiveFaultKind {
  if (status === 401 || status === 403) return 'not-permitted';
  if (status === 404) return 'not-found';
  if (status === 408 || status === 425 || status === 429 || status >= 500) return 'busy';
  if (status >= 400) return 'refused';
  // A redirect to a sign-in page, for one: somebody answered, but not InfluxDB.
  return 'away';
}

/** What the server said, short: its error bodies are JSON with `error` (1.x) or `message` (2.x, 3.x). */
function answerText({ body, statusMessage }: HttpError): string {
  const said = errorField(body ?? '') ?? (body || statusMessage || 'no reason given');
  return said.length > 300 ? `${said.slice(0, 300)}...` : said;
}

function errorField(body: string): string | null {
  try {
    const { error, message } = JSON.parse(body) as { error?: unknown; message?: unknown };
    const text = message ?? error;
    return typeof text === 'string' ? text : null;
  } catch {
    return null;
  }
}

/** Retry-After in seconds; the client itself takes the number for milliseconds. */
function retryAfterMs({ headers }: HttpError): number | null {
  const seconds = Number(headers?.['retry-after']);
  return Number.isFinite(seconds) && seconds >= 0 ? seconds * 1000 : null;
}

function reason(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  // Where a name has two addresses and both fail, the message of the joint error is empty.
  if (error instanceof AggregateError) return error.errors.map(reason).join('; ');
  return error.message || error.name;
}
