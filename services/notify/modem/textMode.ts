import { encodingOf } from '../../../shared/messages/gsm.ts';
import { AtRefused } from './atErrors.ts';
import { type Incoming, type ModemMode, unreadable } from './mode.ts';
import { numberedTexts } from './numberedTexts.ts';
import { fromUcs2Hex, toUcs2Hex } from './ucs2.ts';

/** First octet of a SUBMIT with relative validity, and the bit that asks for a report. */
const submit = 17;
const reportWanted = 32;
const ucs2Scheme = 8;

/**
 * Text mode, for modems that know no other. All text goes as hex in the character set "UCS2": in the modem's own set a
 * euro sign holds the octet that aborts the text, and a line break in what comes in could pass for the end of it. By
 * 27.005 numbers are written in that set as well.
 */
export const textMode: ModemMode = {
  async setUp(engine, waitMs) {
    await engine.command('AT+CMGF=1', waitMs);
    await engine.command('AT+CSCS="UCS2"', waitMs);
  },

  partsOf({ number, text, validity }, { longestParts, deliveryReports }) {
    const firstOctet = submit + (deliveryReports ? reportWanted : 0);
    return numberedTexts(text, longestParts).map((part) => ({
      before: [`AT+CSMP=${firstOctet},${validity},0,${encodingOf(text) === 'ucs2' ? ucs2Scheme : 0}`],
      command: `AT+CMGS="${toUcs2Hex(number)}",145`,
      payload: toUcs2Hex(part),
    }));
  },

  readStored(lines) {
    const at = lines.findIndex((line) => line.startsWith('+CMGR:'));
    // "REC UNREAD",<from>,[<name>],<time>
    return at < 0 ? unreadable : readText(fieldsOf(lines[at]!), 1, lines[at + 1]);
  },

  async listStored(engine, waitMs) {
    const lines = await listAll((command) => engine.command(command, waitMs));
    return lines.flatMap((line, at) => {
      const fields = line.startsWith('+CMGL:') ? fieldsOf(line) : [];
      // <index>,"REC READ",<from>,[<name>],<time>
      return fields.length < 3
        ? []
        : [{ index: Number(fields[0]), incoming: readText(fields, 2, lines[at + 1]) }];
    });
  },

  readDirect(line, data) {
    const fields = fieldsOf(line);
    // <first octet>,<reference>,[<number>],[<type>],<sent>,<arrived>,<status>
    if (line.startsWith('+CDS:'))
      return { kind: 'report', messageReference: Number(fields[1]), status: Number(fields[6]) };
    return readText(fields, 0, data ?? undefined);
  },
};

/** By 27.005 the word is in the character set chosen; some modems want it plain. */
async function listAll(command: (text: string) => Promise<string[]>): Promise<string[]> {
  try {
    return await command(`AT+CMGL="${toUcs2Hex('ALL')}"`);
  } catch (error) {
    if (error instanceof AtRefused) return command('AT+CMGL="ALL"');
    throw error;
  }
}

/** Fields of an answer: in quotes or bare, separated by commas; an empty one counts. */
function fieldsOf(line: string): string[] {
  const list = line.slice(line.indexOf(':') + 1).trim();
  return [...list.matchAll(/(?:^|,)(?:"([^"]*)"|([^,]*))/g)].map(([, quoted, bare]) => quoted ?? bare ?? '');
}

function readText(fields: readonly string[], fromField: number, data: string | undefined): Incoming {
  const from = fields[fromField];
  if (from === undefined || data === undefined) return unreadable;
  const text = fromUcs2Hex(data.trim());
  if (text === null) return unreadable;
  const takenMs = timeOf(fields[fromField + 2] ?? '');
  return { kind: 'text', from: fromUcs2Number(from), text, takenMs, part: null };
}

/** A number in hex is four times as long and begins with the two zeros of a plain character. */
function fromUcs2Number(field: string): string {
  return /^00/.test(field) && field.length % 4 === 0 ? (fromUcs2Hex(field) ?? field) : field;
}

/** "yy/MM/dd,hh:mm:ss+zz", quarter hours from Greenwich; null when it is no such time. */
function timeOf(text: string): number | null {
  const found = /^(\d\d)\/(\d\d)\/(\d\d),(\d\d):(\d\d):(\d\d)([+-]\d\d)?$/.exec(text);
  if (found === null) return null;
  const [year, month, day, hour, minute, second, zone] = found.slice(1).map((part) => Number(part ?? 0));
  const ms = Date.UTC(2000 + year!, month! - 1, day, hour, minute, second);
  return ms - zone! * 15 * 60_000;
}
