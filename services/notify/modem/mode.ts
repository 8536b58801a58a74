import type { AtEngine } from './atEngine.ts';
import type { PartOf } from './inboundPdu.ts';
import type { ModemSettings } from './settings.ts';

/** One text of at most one segment, ready for the modem. */
export interface OutgoingPart {
  readonly command: string;
  readonly payload: string;
  /** Commands that must come right before it. */
  readonly before: readonly string[];
}

export interface OutgoingText {
  readonly number: string;
  readonly text: string;
  /** Ties the parts together, 0..255. */
  readonly reference: number;
  /** As `validityOf` gives it. */
  readonly validity: number;
}

/** What the modem holds or hands over. */
export type Incoming =
  | {
      readonly kind: 'text';
      readonly from: string;
      readonly text: string;
      readonly takenMs: number | null;
      readonly part: PartOf | null;
    }
  | { readonly kind: 'report'; readonly messageReference: number; readonly status: number }
  /** Pictures, settings of the operator, noise. */
  | { readonly kind: 'unreadable' };

export interface StoredIncoming {
  readonly index: number;
  readonly incoming: Incoming;
}

/** The two ways 27.005 has to hand texts over: PDU mode and text mode. */
export interface ModemMode {
  /** Commands that put the modem in this mode, told apart by whether a refusal matters. */
  setUp(engine: AtEngine, waitMs: number): Promise<void>;
  partsOf(text: OutgoingText, settings: ModemSettings): OutgoingPart[];
  /** The one text at an index, from the answer to `AT+CMGR`. */
  readStored(lines: readonly string[]): Incoming;
  /** All texts held, from the answer to `AT+CMGL`. */
  listStored(engine: AtEngine, waitMs: number): Promise<StoredIncoming[]>;
  /** A text or report delivered directly: `+CMT` or `+CDS` with the line that belongs to it. */
  readDirect(line: string, data: string | null): Incoming;
}

export const unreadable: Incoming = { kind: 'unreadable' };
