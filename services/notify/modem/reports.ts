import type { DeliveryReport } from '../messageChannel.ts';

/** Which parts of which message the network's reports are about. */
export interface ReportTracker {
  /** Notes the network's numbers of a message's parts; gives the reference its report will have. */
  sent(partReferences: readonly number[]): string;
  /** The report for the whole message, once one part failed or all arrived; null until then. */
  take(partReference: number, status: number, nowMs: number): DeliveryReport | null;
}

interface Outstanding {
  readonly reference: string;
  readonly parts: Set<number>;
}

/** The network numbers texts from 0 to 255 and then again, so that the newest with a number is meant. */
export function createReportTracker(): ReportTracker {
  const outstanding = new Map<number, Outstanding>();
  return {
    sent(partReferences) {
      const reference = referenceOf(partReferences.at(-1)!);
      const message = { reference, parts: new Set(partReferences) };
      for (const part of partReferences) outstanding.set(part, message);
      return reference;
    },
    take(partReference, status, nowMs) {
      const message = outstanding.get(partReference);
      // Sent before the program started: then only the last part has the reference the message is known by.
      const reference = message?.reference ?? referenceOf(partReference);
      const [state, detail] = stateOf(status);
      if (state === 'underway') return null;
      outstanding.delete(partReference);
      message?.parts.delete(partReference);
      const isWhole = message === undefined || message.parts.size === 0;
      return state === 'failed' || isWhole ? { reference, state, detail, atMs: nowMs } : null;
    },
  };
}

function referenceOf(partReference: number): string {
  return `modem ${partReference}`;
}

/** Status of a STATUS-REPORT (TS 23.040 section 9.2.3.15, from memory): below 32 done, below 64 still tried, else over. */
function stateOf(status: number): readonly [DeliveryReport['state'], string] {
  if (status < 0x20) return ['delivered', 'reached the phone'];
  if (status < 0x40) return ['underway', 'the network still tries'];
  return ['failed', `the network gave up (status ${status})`];
}
