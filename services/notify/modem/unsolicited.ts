/** What a modem says unasked, also in the middle of an answer. `data` is the line that belongs to it, where one does. */
export interface Unsolicited {
  readonly line: string;
  readonly data: string | null;
}

/** Announcements of 27.005 and 27.007 that 27.005 modems make; vendors start theirs with `^`, `%`, `*` or `$`. */
const announcements =
  /^(?:\+CMTI:|\+CMT:|\+CBM:|\+CDS:|\+CDSI:|\+CRING:|\+CLIP:|\+CUSD:|\+C[GE]?REG: ?\d(?:,"|$)|\+CGEV:|\+CTZ|\+CIEV:|\+PBREADY|RING$|NO CARRIER$|RDY$|SMS Ready|SMS DONE|Call Ready|PB DONE|START$|[\^%*$][A-Z])/;

/** Whether a line is said unasked, so that it is no part of the answer to a command. */
export function isUnsolicited(line: string): boolean {
  return announcements.test(line);
}

/** Whether the next line belongs to this one: a message delivered directly, or a report in PDU mode. */
export function hasDataLine(line: string): boolean {
  return /^\+CMT:|^\+CBM:|^\+CDS: ?\d+$/.test(line);
}
