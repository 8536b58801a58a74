import type { GaveUpOutcome, RetryOutcome } from '../messageChannel.ts';
import { AddressRefused } from './postPinned.ts';

/** Before a connection stands nothing can have been taken. */
const neverArrived = ['ECONNREFUSED', 'ENOTFOUND', 'EAI_AGAIN', 'EHOSTUNREACH', 'ENETUNREACH'];

/** Faults of a certificate that waiting does not mend. */
const certificateFault = /^(CERT_|ERR_TLS_CERT|DEPTH_ZERO|SELF_SIGNED|UNABLE_TO_VERIFY|UNABLE_TO_GET_ISSUER)/;

/** What it means that a call over HTTP brought no answer. `who` is a word for people: "gateway", "receiver". */
export function noAnswer(error: unknown, who: string, timeoutMs: number): RetryOutcome | GaveUpOutcome {
  if (error instanceof AddressRefused)
    return { kind: 'gave-up', detail: `${who} is not called: ${error.message}` };
  const { name, code } = withCode(error);
  if (code !== undefined && neverArrived.includes(code))
    return { kind: 'retry', detail: `${who} cannot be reached (${code})` };
  if (code !== undefined && certificateFault.test(code))
    return {
      kind: 'retry',
      detail: `${who} shows a certificate that is not valid (${code})`,
      tellOwner: true,
    };
  const silent = `${who} did not answer within ${timeoutMs / 1000} s`;
  const detail =
    name === 'TimeoutError' ? silent : `no whole answer from the ${who}${code ? ` (${code})` : ''}`;
  return { kind: 'retry', detail, maybeSent: true };
}

/** The code stands on the error itself, or on its cause (fetch), or on each try of several addresses. */
function withCode(error: unknown): { name?: string; code?: string } {
  const { name, code, cause, errors } = error as {
    name?: string;
    code?: unknown;
    cause?: unknown;
    errors?: unknown[];
  };
  if (typeof code === 'string') return { ...(name === undefined ? {} : { name }), code };
  const inner = cause ?? errors?.[0];
  const found = inner === undefined ? {} : withCode(inner);
  return {
    ...(name === undefined ? {} : { name }),
    ...(found.code === undefined ? {} : { code: found.code }),
  };
}
