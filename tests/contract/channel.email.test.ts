import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { createEmail } from '../../services/notify/email/createEmail.ts';
import { emailSchema } from '../../services/notify/email/settings.ts';
import { testMessage } from '../../services/notify/testMessage.ts';
import { hasOpenssl, makeCertificate } from '../helpers/certificate.ts';
import type { ChannelRig } from '../helpers/channelRig.ts';
import { describeIf } from '../helpers/requirement.ts';
import { openStandInSmtp, type StandInSmtp } from '../helpers/standInSmtp.ts';
import { describeChannelContract } from './channelContract.ts';

const [user, password] = ['yard', 'mail-password-of-the-test'];
const settingsFor = (standIn: StandInSmtp, more: object = {}) =>
  emailSchema.parse({
    ...{ host: '127.0.0.1', port: standIn.port, security: 'none', user, password, timeoutSeconds: 1 },
    ...{ from: 'yard@example.org', phoneAddress: '{{digits}}@sms.example.org', ...more },
  });

async function openMail(address: string, arrivesAt: string): Promise<ChannelRig> {
  const standIn = await openStandInSmtp(user, password);
  return {
    channel: createEmail(settingsFor(standIn)),
    address,
    badAddress: 'ann@example.org, all@example.org',
    secrets: [password],
    ...{ checkReaches: true, carriesKey: true },
    arrived: () => standIn.taken.map(({ to, ...mail }) => ({ ...mail, to: to === arrivesAt ? address : to })),
    setMood: standIn.setMood,
    goAway: standIn.goAway,
    comeBack: standIn.comeBack,
    close: standIn.goAway,
  };
}

describeChannelContract('e-mail', () => openMail('ann@example.org', 'ann@example.org'));
describeChannelContract('e-mail to a phone', () => openMail('+441632960123', '441632960123@sms.example.org'));

describe('mail', () => {
  let standIn: StandInSmtp;
  afterEach(() => standIn.goAway());
  const send = async (address: string, more: object = {}) => {
    const channel = createEmail(settingsFor(standIn, more));
    return channel.send(testMessage('email', address, 'm1', Date.now()));
  };

  test('to an address it has a subject and says it was sent by a machine; to a phone it has no subject', async () => {
    standIn = await openStandInSmtp(user, password);
    await send('ann@example.org', { replyTo: 'keeper@example.org' });
    await send('+441632960123');
    const [mail, text] = standIn.taken.map(({ raw }) => raw);
    expect(mail).toMatch(/^Subject: Tilthwatch: this is a test/m);
    expect(mail).toMatch(/^Auto-Submitted: auto-generated/m);
    expect(mail).toMatch(/^Reply-To: keeper@example\.org/m);
    expect(text).not.toMatch(/^Subject:/m);
  });

  test('to a phone is given up where no gateway is set up', async () => {
    standIn = await openStandInSmtp(user, password);
    expect(await send('+441632960123', { phoneAddress: null })).toMatchObject({ kind: 'gave-up' });
  });

  test('does not leave over a connection whose certificate cannot be trusted', async () => {
    standIn = await openStandInSmtp(user, password);
    const outcome = await send('ann@example.org', { security: 'starttls' });
    expect(outcome).toMatchObject({ kind: 'retry', tellOwner: true, detail: expect.stringContaining('TLS') });
    expect(standIn.taken).toEqual([]);
  });

  describeIf(hasOpenssl, 'openssl is not installed')('over STARTTLS', () => {
    test('leaves when the certificate is by an authority we were told to trust', async () => {
      const folder = await mkdtemp(join(tmpdir(), 'tilth-mail-'));
      const certificate = await makeCertificate(folder);
      standIn = await openStandInSmtp(user, password, certificate);
      const sent = await send('ann@example.org', {
        security: 'starttls',
        caFile: certificate.certificateFile,
      });
      expect(sent).toMatchObject({ kind: 'sent' });
      expect(standIn.taken[0]!.raw).toMatch(/^Subject: /m);
      await rm(folder, { recursive: true });
    });
  });

  test('a wrong password is for the owner, in the check as in the sending', async () => {
    standIn = await openStandInSmtp(user, password);
    const channel = createEmail(settingsFor(standIn, { password: 'another' }));
    expect(await channel.check()).toMatchObject({ ready: false, tellOwner: true });
    const message = testMessage('email', 'ann@example.org', 'm1', Date.now());
    expect(await channel.send(message)).toMatchObject({ kind: 'retry', tellOwner: true });
  });
});
