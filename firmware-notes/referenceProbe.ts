/**
 * A probe that runs on any small Linux board with a 1-Wire bus: reads every DS18B20-type thermometer the kernel finds,
 * publishes one SenML pack (RFC 8428) at QoS 1, and keeps what could not be sent in a file until it can.
 *
 *   node firmware-notes/referenceProbe.ts --broker mqtt://192.0.2.10:1883 --yard YARD --probe urn:dev:... \
 *     --secret-file ./secret --sensors core=28-00000bbb9b13,edge=28-0114331cb9ab --every 300
 */
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { connect } from 'mqtt';

const { values: options } = parseArgs({
  options: {
    broker: { type: 'string', default: 'mqtt://127.0.0.1:1883' },
    yard: { type: 'string', default: '' },
    probe: { type: 'string', default: '' },
    'secret-file': { type: 'string', default: './secret' },
    sensors: { type: 'string', default: '' },
    every: { type: 'string', default: '300' },
    /** Where the kernel shows 1-Wire devices; another folder serves for trying it without hardware. */
    bus: { type: 'string', default: '/sys/bus/w1/devices' },
    unsent: { type: 'string', default: './unsent.json' },
    /** After a lost link, repeat what was sent in this many seconds before: a broker that was killed forgets its last. */
    repeat: { type: 'string', default: '3600' },
    once: { type: 'boolean', default: false },
  },
});

export interface Kept {
  readonly n: string;
  readonly v: number;
  /** Epoch seconds. */
  readonly t: number;
}

/** A reading the broker has acknowledged. */
export interface Sent extends Kept {
  readonly sentMs: number;
}

/** About two months of four channels every five minutes; beyond it the oldest go. */
const mostKept = 70_000;
/** Readings in one pack: well under the broker's payload limit. */
const packSize = 500;

/** Celsius from the kernel's two lines, or null when the checksum failed or the chip did not answer. */
export function readSensor(text: string): number | null {
  const celsius = /crc=\w+ YES[\s\S]*t=(-?\d+)/.exec(text)?.[1];
  // 127.937 C is a conversion that failed; a bus stuck low passes its checksum as all zeros.
  if (celsius === undefined || celsius === '127937' || /^(00 ){9}/.test(text)) return null;
  return Number(celsius) / 1000;
}

/** What to send when the link is back: what never was acknowledged, then the last that was, each once. */
export function afterLostLink(
  sent: readonly Sent[],
  unsent: readonly Kept[],
  nowMs: number,
  repeatSeconds: number,
): Kept[] {
  const repeated = sent.filter(({ sentMs }) => nowMs - sentMs <= repeatSeconds * 1000);
  // Behind the rest: the first of it may be under way.
  return [...unsent, ...repeated.map(({ n, v, t }) => ({ n, v, t }))];
}

function measure(): Kept[] {
  const t = Math.round(Date.now() / 1000);
  const named = options.sensors.split(',').map((pair) => pair.split('=') as [string, string]);
  return named.flatMap(([n, device]) => {
    const file = join(options.bus, device, 'w1_slave');
    const v = existsSync(file) ? readSensor(readFileSync(file, 'utf8')) : null;
    if (v === null) console.error(`${n}: no valid answer from ${device}`);
    return v === null ? [] : [{ n, v, t }];
  });
}

function loadUnsent(): Kept[] {
  return existsSync(options.unsent) ? (JSON.parse(readFileSync(options.unsent, 'utf8')) as Kept[]) : [];
}

function saveUnsent(kept: readonly Kept[]): void {
  // Written aside and moved, so that a power cut leaves the old file or the new one and never half of one.
  writeFileSync(`${options.unsent}.new`, JSON.stringify(kept));
  renameSync(`${options.unsent}.new`, options.unsent);
}

/** One pack: base name once, base time once, every record its channel and its distance in time. */
function packOf(kept: readonly Kept[]): string {
  const bt = kept[0]!.t;
  return JSON.stringify(
    kept.map(({ n, v, t }, index) => ({
      ...(index === 0 ? { bn: `${options.probe}_`, bt, bu: 'Cel' } : {}),
      n,
      v,
      t: t - bt,
    })),
  );
}

function run(): void {
  const topic = `tilth/${options.yard}/${options.probe}/readings`;
  const password = readFileSync(options['secret-file'], 'utf8').trim();
  // Turned away is not the end: the yard may be unable to look the secret up just now.
  const again = { reconnectPeriod: 5_000, reconnectOnConnackError: true };
  const sign = { clientId: options.probe, username: options.probe, password };
  const client = connect(options.broker, { ...sign, ...again });
  client.on('error', (error) => console.error(`broker: ${error.message}`));
  let unsent = loadUnsent();
  let sent: Sent[] = [];
  let sending = false;
  const repeatSeconds = Number(options.repeat);

  function remember(pack: readonly Kept[]): void {
    const sentMs = Date.now();
    const stillOfUse = sent.filter((one) => sentMs - one.sentMs <= repeatSeconds * 1000);
    sent = [...stillOfUse, ...pack.map((one) => ({ ...one, sentMs }))].slice(-mostKept);
  }

  async function send(): Promise<void> {
    if (sending || !client.connected) return;
    sending = true;
    try {
      while (unsent.length > 0) {
        const pack = unsent.slice(0, packSize);
        await client.publishAsync(topic, packOf(pack), { qos: 1 });
        unsent = unsent.slice(pack.length);
        remember(pack);
        saveUnsent(unsent);
      }
      if (options.once) client.end();
    } catch (error) {
      console.error(`not sent, kept for later: ${(error as Error).message}`);
    } finally {
      sending = false;
    }
  }

  function tick(): void {
    unsent = [...unsent, ...measure()].slice(-mostKept);
    saveUnsent(unsent);
    void send();
  }

  let wasLost = false;
  client.on('close', () => {
    wasLost = true;
  });
  client.on('connect', () => {
    if (wasLost) {
      unsent = afterLostLink(sent, unsent, Date.now(), repeatSeconds);
      sent = [];
    }
    wasLost = false;
    void send();
  });
  tick();
  if (!options.once) setInterval(tick, Number(options.every) * 1000);
}

if (import.meta.main) run();
