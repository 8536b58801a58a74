import type { GaveUpOutcome, RetryOutcome } from '../messageChannel.ts';
import { AtLost, AtRefused, ModemNotReady } from './atErrors.ts';
import { outcomeOfRefusal } from './resultCodes.ts';

/** What trouble with the modem means for the message. Throws what is no trouble with the modem. */
export function outcomeOf(error: unknown): RetryOutcome | GaveUpOutcome {
  if (error instanceof AtRefused) return outcomeOfRefusal(error);
  if (error instanceof AtLost)
    return { kind: 'retry', detail: error.message, ...(error.afterPayload ? { maybeSent: true } : {}) };
  if (error instanceof ModemNotReady)
    return { kind: 'retry', detail: error.message, ...(error.tellOwner ? { tellOwner: true } : {}) };
  throw error;
}
