import type { GaveUpOutcome, RetryOutcome } from '../messageChannel.ts';
import type { AtRefused } from './atErrors.ts';

type CodeClass = 'retry' | 'give-up' | 'owner';
type Row = readonly [CodeClass, string];

/**
 * `+CMS ERROR` numbers: 1..127 are causes of the network (TS 24.011 annex E), 300 on are of the modem (27.005 section
 * 3.2.5). Meanings restated from memory (unconfirmed); modems differ. What is not listed is tried again.
 */
const messageCodes: ReadonlyMap<number, Row> = new Map<number, Row>([
  [1, ['give-up', 'this number does not exist']],
  [8, ['owner', 'the operator bars texts from this card']],
  [10, ['owner', 'texts are barred for this card']],
  [21, ['give-up', 'the network rejects this text']],
  [27, ['retry', 'the phone is out of order']],
  [28, ['give-up', 'the number is not known']],
  [29, ['owner', 'the network rejects this service']],
  [30, ['give-up', 'the subscriber is not known']],
  [38, ['retry', 'network out of order']],
  [41, ['retry', 'passing trouble in the network']],
  [42, ['retry', 'network is crowded']],
  [47, ['retry', 'network has no room']],
  [50, ['owner', 'this card is not subscribed to texts']],
  [69, ['owner', 'the network does not offer texts']],
  [96, ['give-up', 'the network cannot read this text']],
  [302, ['owner', 'modem does not allow it']],
  [303, ['owner', 'modem cannot do it']],
  [304, ['give-up', 'modem cannot read this text (PDU)']],
  [305, ['give-up', 'modem cannot read this text']],
  [310, ['owner', 'no SIM card in the modem']],
  [311, ['owner', 'SIM card asks for its PIN']],
  [312, ['owner', 'SIM card is tied to another phone']],
  [313, ['owner', 'SIM card does not work']],
  [314, ['retry', 'SIM card is busy']],
  [315, ['owner', 'wrong SIM card']],
  [316, ['owner', 'SIM card is locked and asks for its PUK']],
  [330, ['owner', "the number of the network's service centre is not set"]],
  [331, ['retry', 'no network']],
  [332, ['retry', 'network did not answer']],
  [500, ['retry', 'unknown trouble']],
]);

/** `+CME ERROR` numbers (TS 27.007 section 9.2), restated from memory (unconfirmed). */
const deviceCodes: ReadonlyMap<number, Row> = new Map<number, Row>([
  [3, ['owner', 'modem does not allow it']],
  [4, ['owner', 'modem cannot do it']],
  [10, ['owner', 'no SIM card in the modem']],
  [11, ['owner', 'SIM card asks for its PIN']],
  [12, ['owner', 'SIM card is locked and asks for its PUK']],
  [13, ['owner', 'SIM card does not work']],
  [14, ['retry', 'SIM card is busy']],
  [15, ['owner', 'wrong SIM card']],
  [16, ['owner', 'the PIN is wrong']],
  [30, ['retry', 'no network']],
  [31, ['retry', 'network did not answer']],
  [32, ['owner', 'network takes emergency calls only']],
]);

/** What a refusal means for the message, in words for people. */
export function outcomeOfRefusal({ kind, code }: AtRefused): RetryOutcome | GaveUpOutcome {
  if (kind === 'plain' || code === null) return { kind: 'retry', detail: 'modem refuses without a reason' };
  const [codeClass, words] = rowOf(kind, code);
  const detail = `${words} (+${kind.toUpperCase()} ${code})`;
  if (codeClass === 'give-up') return { kind: 'gave-up', detail };
  return { kind: 'retry', detail, ...(codeClass === 'owner' ? { tellOwner: true } : {}) };
}

function rowOf(kind: 'cms' | 'cme', code: number): Row {
  const codes = kind === 'cms' ? messageCodes : deviceCodes;
  return codes.get(code) ?? ['retry', 'modem refuses'];
}
