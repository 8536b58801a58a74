/** The modem answered, and the answer is no. The session goes on. */
export class AtRefused extends Error {
  override readonly name = 'AtRefused';
  /** `cms` is about messages (27.005), `cme` about the device and the SIM card (27.007), `plain` gives no reason. */
  readonly kind: 'cms' | 'cme' | 'plain';
  /** The number; null where there is none, or it came as words. */
  readonly code: number | null;

  constructor(kind: 'cms' | 'cme' | 'plain', code: number | null, line: string) {
    super(`modem answered "${line}"`);
    this.kind = kind;
    this.code = code;
  }
}

/** The modem said nothing, or something that does not belong here. What it will say next cannot be trusted: start anew. */
export class AtLost extends Error {
  override readonly name = 'AtLost';
  /** The text had been handed over: it may be on its way. */
  readonly afterPayload: boolean;

  constructor(detail: string, afterPayload = false) {
    super(detail);
    this.afterPayload = afterPayload;
  }
}

/** Something about the port, the SIM card or the network that has to be put right before anything can be sent. */
export class ModemNotReady extends Error {
  override readonly name = 'ModemNotReady';
  readonly tellOwner: boolean;

  constructor(detail: string, tellOwner: boolean) {
    super(detail);
    this.tellOwner = tellOwner;
  }
}

/** The refusal a final line stands for; null for any other line. */
export function refusalOf(line: string): AtRefused | null {
  const coded = /^\+(CM[SE]) ERROR: ?(.*)$/.exec(line);
  if (coded) {
    const code = /^\d+$/.test(coded[2]!) ? Number(coded[2]) : null;
    return new AtRefused(coded[1] === 'CMS' ? 'cms' : 'cme', code, line);
  }
  return line === 'ERROR' || line === 'COMMAND NOT SUPPORT' ? new AtRefused('plain', null, line) : null;
}
