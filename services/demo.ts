import { randomBytes } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { hashProbeSecret } from './broker/probeCredentials.ts';
import { createFastClock, systemClock } from './clock.ts';
import { readCommandLine } from './commandLine.ts';
import { loadConfiguration } from './configuration/load.ts';
import { wantedOrFreePort } from './freePort.ts';
import { createLogger } from './logger.ts';
import { furnishYard } from './simulator/furnishYard.ts';
import { startStandInPhone } from './simulator/standInPhone.ts';
import { startSimulator } from './simulator/startSimulator.ts';
import { startFailureText } from './startFailure.ts';
import { startYard } from './startYard.ts';
import { onStopSignal } from './stopSignal.ts';
import { createSignInLink } from './web/startWeb.ts';

/** How many times as fast as life the demo runs. */
const speed = 600;

/** Lease of a text being sent: two real minutes, as everywhere, but counted on the demo's fast clock. */
const leaseMs = 120_000 * speed;

/**
 * Judgement counts on the fast clock too: readings of one moment arrive spread over a tenth of a real second, and a text
 * or its link must outlive a person's look at the phone.
 */
const judgement = {
  settleSeconds: 300,
  tickMilliseconds: 200,
  statusSeconds: 300,
  textHours: 24 * 30,
  answerHours: 24 * 60,
};

/** Once a real second: ten minutes of the demo's time. */
const dutyTick = '* * * * * *';

/** Gannet Row, an invented yard: everything in one process, a simulator at 600 times life, texts on a stand-in phone. */
async function main(): Promise<void> {
  const { flags } = readCommandLine(process.argv.slice(2));
  const dataFolder = mkdtempSync(join(tmpdir(), 'tilthwatch-demo-'));
  const phone = await startStandInPhone({
    onText: ({ to, text }) => console.log(`\n  Text to ${to}:\n    ${text}\n`),
  });
  const gatewaySecret = randomBytes(18).toString('base64url');
  const configuration = loadConfiguration({
    file: null,
    environment: process.env,
    flags: [...(await demoFlags(dataFolder, phone.gatewayUrl, gatewaySecret)), ...flags],
  });
  const logger = createLogger(configuration.log.level);
  const startMs = Date.now();
  const clock = createFastClock(startMs, speed);
  const yard = await startYard({ configuration, clock, logger, leaseMs, judgement, dutyTick });
  const furnished = await furnishYard(yard.records, startMs, makeSecret);
  yard.ingest?.knowledgeChanged();

  const address = yard.web!.publicUrl;
  phone.answerTo((from, text) => passOn(address, gatewaySecret, from, text));
  const signIn = await createSignInLink(yard.records, furnished.ownerId, systemClock, address);
  console.log(`Gannet Row, an invented yard, ${speed} times as fast as life.

  Yard, signs you in as its owner (once):  ${signIn}
  Wall (after signing in):                 ${address}/wall
  Stand-in phone with the texts:           ${phone.url}
  MQTT broker:                             mqtt://127.0.0.1:${yard.broker?.port}

The probes first send what they measured over the past weeks. Ctrl-C stops and removes everything.`);

  const simulator = await startSimulator({
    yard: furnished,
    records: yard.records,
    brokerUrl: `mqtt://127.0.0.1:${yard.broker!.port}`,
    clock,
    startMs,
    logger,
    onProgress: showProgress,
  });
  onStopSignal(async () => {
    await simulator.stop();
    await yard.stop();
    await phone.stop();
    rmSync(dataFolder, { recursive: true, force: true });
  }, logger);
}

/** Brings a text from the stand-in phone to the yard, as a gateway would. */
async function passOn(address: string, secret: string, from: string, text: string): Promise<void> {
  const body = JSON.stringify({ from, text, id: randomBytes(9).toString('base64url') });
  const headers = { 'content-type': 'application/json', 'x-gateway': secret };
  const answer = await fetch(`${address}/gateway/inbound`, { method: 'POST', headers, body });
  if (!answer.ok) throw new Error(`the yard did not take the text: ${answer.status}`);
}

async function demoFlags(
  dataFolder: string,
  gatewayUrl: string,
  secret: string,
): Promise<(readonly [string, string])[]> {
  const callbacks = {
    check: { kind: 'token', name: 'x-gateway', secret },
    inbound: { sender: '/from', text: '/text', reference: '/id' },
  };
  return [
    ['dataFolder', dataFolder],
    ['log.level', 'warn'],
    // By the fast clock every pause of the machine would be an outage of hours.
    ['watch.outageMinutes', 'null'],
    ['broker.port', '0'],
    ['http.port', String(await wantedOrFreePort(8477))],
    ['sms', JSON.stringify({ url: gatewayUrl, callbacks })],
  ];
}

function makeSecret(): { secret: string; hash: string } {
  const secret = randomBytes(18).toString('base64url');
  return { secret, hash: hashProbeSecret(secret) };
}

function showProgress(share: number): void {
  const done = Math.round(share * 100);
  if (process.stdout.isTTY)
    process.stdout.write(`\r  past readings sent: ${done} %${share >= 1 ? '\n' : ''}`);
  else if (share >= 1) console.log('  past readings sent');
}

main().catch((error: unknown) => {
  console.error(startFailureText(error));
  process.exit(1);
});
