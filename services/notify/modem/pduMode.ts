import { partsOf } from '../../../shared/messages/gsm.ts';
import { submitPdus } from '../../../shared/messages/pdu.ts';
import { readInboundPdu } from './inboundPdu.ts';
import { type Incoming, type ModemMode, unreadable } from './mode.ts';

/** PDU mode: the modem passes on what we wrote, so a long text arrives as one and every letter as it is. */
export const pduMode: ModemMode = {
  async setUp(engine, waitMs) {
    await engine.command('AT+CMGF=0', waitMs);
  },

  partsOf({ number, text, reference, validity }, { longestParts, deliveryReports }) {
    const fitting = partsOf(text).slice(0, longestParts).join('');
    const pdus = submitPdus(number, fitting, { reference, validity, wantsReport: deliveryReports });
    return pdus.map(({ hex, length }) => ({ command: `AT+CMGS=${length}`, payload: hex, before: [] }));
  },

  readStored(lines) {
    const at = lines.findIndex((line) => line.startsWith('+CMGR:'));
    return readPdu(lines[at + 1]);
  },

  async listStored(engine, waitMs) {
    const lines = await engine.command('AT+CMGL=4', waitMs);
    return lines.flatMap((line, at) => {
      const index = /^\+CMGL: ?(\d+),/.exec(line)?.[1];
      return index === undefined ? [] : [{ index: Number(index), incoming: readPdu(lines[at + 1]) }];
    });
  },

  readDirect: (_line, data) => readPdu(data ?? undefined),
};

function readPdu(hex: string | undefined): Incoming {
  return (hex === undefined ? null : readInboundPdu(hex)) ?? unreadable;
}
