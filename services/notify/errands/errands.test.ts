import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type OutboxRig, openOutboxRig } from '../../../tests/helpers/outboxRig.ts';
import { openChannelDesk } from '../channelDesk.ts';
import type { ChannelsTold } from './answers.ts';
import { channelsFromAfar } from './channelsFromAfar.ts';
import { runErrands } from './runErrands.ts';

let rig: OutboxRig;
const stopping: (() => Promise<void>)[] = [];
beforeEach(async () => {
  rig = await openOutboxRig();
});
afterEach(async () => {
  for (const stop of stopping.splice(0)) await stop();
  await rig.close();
});

const logger = pino({ level: 'silent' });
const standing = { channel: 'sms-http', ready: true, detail: 'ready', tellOwner: false, atMs: 1 } as const;
const one: ChannelsTold = { kinds: ['sms-http'], pushKey: null, standings: [standing] };

function sender() {
  const desk = openChannelDesk({ channels: [rig.channel], clock: rig.clock, logger });
  const errands = runErrands({ records: rig.records, desk, logger });
  stopping.push(errands.stop);
  return errands;
}
const afar = (told: readonly ChannelsTold[] = [one], tell = () => {}, takenWithinMs = 5_000) =>
  channelsFromAfar({ records: rig.records, told: () => told, tell, takenWithinMs, answeredWithinMs: 5_000 });

describe('channels of another process', () => {
  test('are looked at and tried there, and the answer comes back as it was given', async () => {
    const errands = sender();
    const channels = afar([one], errands.look);
    expect(await channels.check('sms-http')).toMatchObject({ ready: true, detail: 'ready' });
    expect(await channels.test('sms-http', '+441632960999')).toMatchObject({ kind: 'sent', detail: 'taken' });
    rig.channel.answer = () => ({ kind: 'retry', detail: 'no credit', tellOwner: true });
    const refused = await channels.test('sms-http', '+441632960999');
    expect(refused).toEqual({ kind: 'retry', detail: 'no credit', tellOwner: true });
    rig.channel.answer = () => ({ kind: 'gave-up', detail: 'no such number' });
    expect(await channels.test('sms-http', '+1')).toEqual({ kind: 'gave-up', detail: 'no such number' });
  });

  test('of two who send one does it, once', async () => {
    const [first, second] = [sender(), sender()];
    const both = () => {
      first.look();
      second.look();
    };
    await afar([one, one], both).test('sms-http', '+441632960999');
    expect(rig.channel.given).toHaveLength(1);
  });

  test('when nobody takes it, it is taken back: nothing is sent later', async () => {
    await expect(afar([one], () => {}, 300).test('sms-http', '+441632960999')).rejects.toThrow(
      'nothing was sent',
    );
    const errands = sender();
    errands.look();
    expect(await rig.records.errands.take(['sms-http'])).toEqual([]);
    expect(rig.channel.given).toEqual([]);
  });

  test('the word of it lost, it is still found', async () => {
    sender();
    expect(await afar().test('sms-http', '+441632960999')).toMatchObject({ kind: 'sent' });
    expect(rig.channel.given).toHaveLength(1);
  });

  test('stand as whoever used them last tells, and are unknown while nobody does', () => {
    const later = { ...standing, ready: false, detail: 'gateway answered 401', atMs: 2 };
    const channels = afar([
      { ...one, standings: [later] },
      { ...one, kinds: ['web-push'], pushKey: 'key' },
    ]);
    expect(channels.standings()).toEqual([later]);
    expect(channels.kinds()).toEqual(['sms-http', 'web-push']);
    expect(channels.pushKey()).toBe('key');
    expect([channels.isKnown(), afar([]).isKnown()]).toEqual([true, false]);
  });
});
