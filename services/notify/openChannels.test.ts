import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openChannels } from './openChannels.ts';
import { emailSchema, modemSchema, smsGatewaySchema, webhookSchema, webPushSchema } from './port.ts';
import { createReportSink } from './reportSink.ts';

const nothing = { sms: null, modem: null, email: null, webPush: null, webhook: null };
const logger = pino({ level: 'silent' });
let dataFolder: string;
beforeEach(async () => {
  dataFolder = await mkdtemp(join(tmpdir(), 'tilth-channels-'));
});
afterEach(() => rm(dataFolder, { recursive: true }));

function open(configuration: Parameters<typeof openChannels>[0]['configuration']) {
  const sink = { onText: async () => {}, onReport: async () => {} };
  return openChannels({ configuration, dataFolder, sink, logger, nowMs: Date.now });
}

test('there is a channel for each part of the configuration, and none for an empty one', async () => {
  expect(await open(nothing)).toEqual([]);
  expect(await readdir(dataFolder)).toEqual([]);
  const channels = await open({
    sms: smsGatewaySchema.parse({ url: 'https://sms.example/send' }),
    modem: modemSchema.parse({ port: '/dev/ttyUSB0' }),
    email: emailSchema.parse({ host: 'mail.example', from: 'yard@example.org' }),
    webPush: webPushSchema.parse({ contact: 'mailto:keeper@example.org' }),
    webhook: webhookSchema.parse({ secrets: ['MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw'] }),
  });
  expect(channels.map(({ kind }) => kind)).toEqual(['sms-http', 'sms-modem', 'email', 'web-push', 'webhook']);
  expect(await readdir(dataFolder)).toEqual(['web-push-keys.json']);
  await Promise.all(channels.map((channel) => channel.stop()));
});

test('a file that cannot be read is named with its field', async () => {
  const email = { host: 'mail.example', from: 'yard@example.org', caFile: join(dataFolder, 'none.pem') };
  await expect(open({ ...nothing, email: emailSchema.parse(email) })).rejects.toThrow(
    /email\.caFile = .*none\.pem/,
  );
});

test('a report of arrival or of failure is noted on its message, one on the way says nothing', async () => {
  const noted: string[] = [];
  const note = (what: string) => async (reference: string) => noted.push(`${what} ${reference}`) > 0;
  const messages = { markDelivered: note('delivered'), markFailed: note('failed') };
  const sink = createReportSink(messages, logger, () => void noted.push('announced'));
  for (const state of ['underway', 'failed', 'delivered'] as const)
    await sink.onReport({ reference: state, state, detail: '', atMs: 1 });
  expect(noted).toEqual(['failed failed', 'announced', 'delivered delivered', 'announced']);
});
