import type { Duplex } from 'node:stream';
import type { Mood } from './channelRig.ts';
import { type DeliverOptions, deliverPdu, readSubmit, statusReportPdu } from './modemPdus.ts';

export interface SentText {
  readonly to: string;
  readonly text: string;
  readonly part: { readonly reference: number; readonly count: number; readonly number: number } | null;
  readonly wantsReport: boolean;
  readonly messageReference: number;
}

export interface ModemTemper {
  /** Time until the prompt comes, ms. */
  promptMs: number;
  /** Said unasked in the middle of every answer. */
  chatter: readonly string[];
  pin: string | null;
  /** `+CREG` state: 1 home, 2 looking, 3 denied. */
  registration: number;
  hasServiceCentre: boolean;
  mood: Mood;
  /** Answers `ERROR` to commands that begin so. */
  unknown: readonly string[];
  /** What the network takes before it refuses with `+CMS ERROR: 38`; null: all. */
  partsUntilTrouble: number | null;
  breakLine: () => void;
}

export interface StandInModem {
  readonly temper: ModemTemper;
  readonly sent: SentText[];
  /** Commands that came while another one was being answered: never by 27.005. */
  readonly tooSoon: string[];
  readonly commands: string[];
  /** Texts it holds, by index. */
  readonly held: Map<number, string>;
  readonly pinTries: string[];
  /** Plugs it in at the other end of a line; its settings are as after power-on. */
  attach(line: Duplex): void;
  /** It hung and its watchdog starts it again: all settings are lost, also those of the card. */
  restart(): void;
  /** A text comes in: kept and announced. */
  receive(text: DeliverOptions): void;
  /** The network reports on a text that went out. */
  report(messageReference: number, to: string, status: number): void;
}

const controlZ = '\x1a';
const abortText = '\x1b';

interface Settings {
  echo: boolean;
  textMode: boolean;
  characterSet: string;
  scheme: number;
  firstOctet: number;
  announces: string;
}

const powerOn = (): Settings => ({
  ...{ echo: true, textMode: false, characterSet: 'GSM', scheme: 0, firstOctet: 17, announces: '' },
});

/** A modem that follows 3GPP TS 27.005, with the manners of real ones: slow prompts, chatter, refusals, hanging. */
export function createStandInModem(): StandInModem {
  const temper: ModemTemper = {
    ...{
      promptMs: 5,
      chatter: [],
      pin: null,
      registration: 1,
      hasServiceCentre: true,
      mood: 'well',
      unknown: [],
    },
    ...{ partsUntilTrouble: null, breakLine: () => {} },
  };
  const sent: SentText[] = [];
  const tooSoon: string[] = [];
  const commands: string[] = [];
  const held = new Map<number, string>();
  const pinTries: string[] = [];
  let settings = powerOn();
  let line: Duplex | null = null;
  let typed = '';
  let isBusy = false;
  let asksFor: string | null = null;
  let isPinOpen = false;
  let nextReference = 250;

  const say = (text: string) => line?.write(text, 'latin1');
  const tell = (text: string) => say(`\r\n${text}\r\n`);

  function finish(lines: readonly string[], final = 'OK'): void {
    for (const [index, text] of lines.entries()) {
      tell(text);
      // Not between a header and the line that belongs to it.
      if (index === 0 && !/^\+CM[GS][RLS]:/.test(text)) temper.chatter.forEach(tell);
    }
    if (lines.length === 0) temper.chatter.forEach(tell);
    isBusy = false;
    tell(final);
  }

  function restart(): void {
    settings = powerOn();
    [typed, isBusy, asksFor, isPinOpen] = ['', false, null, false];
  }

  function onCharacter(character: string): void {
    if (asksFor !== null) onText(character);
    else if (character === abortText || character === '\n') typed = '';
    else if (character !== '\r') typed += character;
    else if (typed !== '') {
      const command = typed;
      typed = '';
      if (settings.echo) say(`${command}\r`);
      if (isBusy) tooSoon.push(command);
      else onCommand(command);
    }
  }

  function onText(character: string): void {
    if (character === abortText) {
      asksFor = null;
      typed = '';
      finish([]);
    } else if (character !== controlZ) typed += character;
    else {
      const [command, text] = [asksFor!, typed];
      asksFor = null;
      typed = '';
      if (settings.echo) say(text);
      onSubmit(command, text);
    }
  }

  function onSubmit(command: string, text: string): void {
    const refusals: Partial<Record<Mood, number>> = {
      busy: 38,
      'refuses-recipient': 1,
      'refuses-account': 310,
    };
    const refusal = refusals[temper.mood];
    if (temper.mood === 'silent') return;
    if (temper.mood === 'breaks-off') temper.breakLine();
    else if (refusal !== undefined) finish([], `+CMS ERROR: ${refusal}`);
    else if (temper.partsUntilTrouble !== null && temper.partsUntilTrouble-- <= 0)
      finish([], '+CMS ERROR: 38');
    else accept(command, text);
  }

  function accept(command: string, text: string): void {
    const messageReference = nextReference;
    nextReference = (nextReference + 1) % 256;
    try {
      sent.push({
        ...(settings.textMode ? readText(command, text) : readPdu(command, text)),
        messageReference,
      });
      finish([`+CMGS: ${messageReference}`]);
    } catch (error) {
      commands.push(`refused: ${(error as Error).message}`);
      finish([], `+CMS ERROR: ${settings.textMode ? 305 : 304}`);
    }
  }

  function readPdu(command: string, text: string): Omit<SentText, 'messageReference'> {
    const submit = readSubmit(text);
    if (command !== `AT+CMGS=${submit.length}`) throw new Error(`${command} for ${submit.length} octets`);
    return submit;
  }

  function readText(command: string, hex: string): Omit<SentText, 'messageReference'> {
    if (settings.characterSet !== 'UCS2') throw new Error(`character set is ${settings.characterSet}`);
    const unhex = (digits: string) => Buffer.from(digits, 'hex').swap16().toString('utf16le');
    const number = /^AT\+CMGS="([0-9A-F]+)",145$/.exec(command)?.[1];
    const text = unhex(hex);
    // A modem told that a text is in the GSM alphabet makes question marks of the rest.
    const kept =
      settings.scheme === 8
        ? text
        : text.replaceAll(/[^\n\r\x20-\x7e£¥èéùìòçØøÅåΔΦΓΛΩΠΨΣΘΞÆæßÉ¤¡ÄÖÑÜ§¿äöñüà€]/g, '?');
    return { to: unhex(number!), text: kept, part: null, wantsReport: (settings.firstOctet & 32) !== 0 };
  }

  function onCommand(command: string): void {
    commands.push(command);
    isBusy = true;
    if (temper.unknown.some((start) => command.startsWith(start))) finish([], 'ERROR');
    else if (command.startsWith('AT+CMGS=')) prompt(command);
    else finish(...answerTo(command));
  }

  function prompt(command: string): void {
    temper.chatter.forEach(tell);
    const promptTo = line;
    setTimeout(() => {
      if (line !== promptTo) return;
      asksFor = command;
      say('\r\n> ');
    }, temper.promptMs);
  }

  function answerTo(command: string): [string[], string?] {
    const [, name = '', value = ''] = /^AT(\+?[A-Z]*\d?\??)(?:=(.*))?$/.exec(command) ?? [];
    const answers: Record<string, () => [string[], string?]> = {
      '': () => [[]],
      E0: () => set({ echo: false }),
      '+CMEE': () => [[]],
      '+CPIN?': () => [[`+CPIN: ${temper.pin === null || isPinOpen ? 'READY' : 'SIM PIN'}`]],
      '+CPIN': () => enterPin(value),
      '+CREG?': () => [[`+CREG: 0,${temper.registration}`]],
      '+CEREG?': () => [[`+CEREG: 0,${temper.registration}`]],
      '+CSQ': () => [['+CSQ: 14,99']],
      '+CSCA?': () => [[temper.hasServiceCentre ? '+CSCA: "+441632960000",145' : '+CSCA: "",129']],
      '+CMGF': () => set({ textMode: value === '1' }),
      '+CSCS': () => set({ characterSet: value.replaceAll('"', '') }),
      '+CSMP': () => set({ firstOctet: Number(value.split(',')[0]), scheme: Number(value.split(',')[3]) }),
      '+CPMS': () => [[`+CPMS: ${held.size},20,${held.size},20,${held.size},20`]],
      '+CNMI': () => set({ announces: value }),
      '+CMGR': () => readHeld(Number(value)),
      '+CMGL': () => listHeld(),
      '+CMGD': () => [held.delete(Number(value)) ? [] : []],
    };
    return answers[name]?.() ?? [[], 'ERROR'];
  }

  function set(change: Partial<Settings>): [string[]] {
    settings = { ...settings, ...change };
    return [[]];
  }

  function enterPin(value: string): [string[], string?] {
    pinTries.push(value.replaceAll('"', ''));
    isPinOpen = pinTries.at(-1) === temper.pin;
    return isPinOpen ? [[]] : [[], '+CME ERROR: 16'];
  }

  function readHeld(index: number): [string[], string?] {
    const pdu = held.get(index);
    if (pdu === undefined) return [[], '+CMS ERROR: 321'];
    return [settings.textMode ? asText('+CMGR: ', pdu) : [`+CMGR: 0,,${pdu.length / 2 - 8}`, pdu]];
  }

  function listHeld(): [string[]] {
    return [
      [...held].flatMap(([index, pdu]) =>
        settings.textMode
          ? asText(`+CMGL: ${index},`, pdu)
          : [`+CMGL: ${index},1,,${pdu.length / 2 - 8}`, pdu],
      ),
    ];
  }

  function asText(start: string, held: string): string[] {
    const { from, text } = JSON.parse(Buffer.from(held, 'hex').toString()) as DeliverOptions;
    const hex = (plain: string) => Buffer.from(plain, 'utf16le').swap16().toString('hex').toUpperCase();
    return [`${start}"REC UNREAD","${hex(from)}",,"26/11/25,10:30:00+04"`, hex(text)];
  }

  return {
    ...{ temper, sent, tooSoon, commands, held, pinTries },
    restart,
    attach(next) {
      line = next;
      restart();
      next.on('data', (bytes: Buffer) => {
        if (line === next) for (const character of bytes.toString('latin1')) onCharacter(character);
      });
      next.on('error', () => {});
    },
    receive(text) {
      const index = Math.max(0, ...held.keys()) + 1;
      // In text mode the network's part of the work is left out: it is kept as it is.
      const kept = settings.textMode ? Buffer.from(JSON.stringify(text)).toString('hex') : deliverPdu(text);
      held.set(index, kept);
      if (settings.announces.startsWith('2,1')) tell(`+CMTI: "SM",${index}`);
    },
    report(messageReference, to, status) {
      const pdu = statusReportPdu(messageReference, to, status);
      if (!settings.textMode) tell(`+CDS: ${pdu.length / 2 - 8}\r\n${pdu}`);
      else
        tell(
          `+CDS: 6,${messageReference},"${to}",145,"26/11/25,10:30:00+04","26/11/25,10:30:09+04",${status}`,
        );
    },
  };
}
