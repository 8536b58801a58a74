import type { Records } from '../../services/records/port.ts';
import {
  minuteMs,
  personValues,
  pileValues,
  placementValues,
  probeValues,
  sampleAlarm,
  sampleMessage,
  sampleStatus,
  sampleTransition,
  startMs,
  yardValues,
} from '../contract/records/samples.ts';

/** Words that must never leave the house; each is stored somewhere by `furnishRecords`. */
export const secretsWithin = {
  passwordHash: 'scrypt-password-hash-of-marta',
  probeSecretHash: 'sha256-secret-hash-of-probe',
  answerToken: 'q3Jx0Zk1LmNoPqRsTuVw',
  answerTokenHash: 'hash-of-answer-token',
  sessionHash: 'hash-of-session',
  wallHash: 'hash-of-wall-link',
  setupHash: 'hash-of-set-up-link',
  browserKey: 'key-of-known-browsers',
  pushEndpoint: 'https://push.example/endpoint-of-a-browser',
  webhook: 'https://hooks.example/hook-with-a-key',
};

export const furnishedChannel = placementValues({ yard: {}, pile: {} } as never).channel;

/** A yard with at least one row of everything a yard has, secrets among it. */
export async function furnishRecords(records: Records): Promise<void> {
  const secret = secretsWithin;
  const yard = await records.yards.create(yardValues);
  const pile = await records.piles.create(pileValues(yard.id));
  const owner = { ...personValues(yard.id, 'marta'), role: 'owner' } as const;
  const person = await records.people.create(owner, secret.passwordHash);
  const sample = { yard, pile, person };
  await records.probes.create(probeValues(yard.id), secret.probeSecretHash);
  const placement = await records.placements.create(placementValues(sample));
  await records.placements.end(placement.id, startMs + 600 * minuteMs);
  const calibration = { channel: furnishedChannel, gain: 1.01, offset: -0.25, dueMs: null };
  await records.probes.saveCalibration({ ...calibration, calibratedMs: startMs });
  await records.probes.saveCalibration({ ...calibration, calibratedMs: startMs + 1 });
  const limits = { 'too-hot-ceiling': { limitCelsius: 68 } };
  const change = {
    pileId: pile.id,
    overrides: limits,
    reason: 'hot summer',
    by: person.id,
    savedMs: startMs,
  };
  await records.limits.save({ ...change, expectedVersion: 0 });
  const entry = {
    pileId: pile.id,
    timeMs: startMs,
    kind: 'watered',
    value: 40,
    note: 'two cans, "slowly"',
  } as const;
  const { id } = await records.journal.add({ ...entry, by: person.id, recordedAtMs: startMs + 1 });
  const bytes = Uint8Array.from({ length: 3000 }, (_, index) => (index * 7) % 256);
  await records.journal.savePhoto(id, { widthPixels: 40, heightPixels: 30, jpeg: bytes });
  const wrong = await records.journal.add({ ...entry, by: person.id, recordedAtMs: startMs + 2 });
  await records.journal.takeBack(wrong.id, startMs + 3);
  await records.designs.save(pile.id, '{"shape":{"kind":"box"}}', startMs);
  await records.wordings.save({
    ...{ yardId: yard.id, expectedVersion: 0, by: person.id, savedMs: startMs },
    overrides: { en: { 'several.minute': '{count} piles, see the wall' } },
  });
  await furnishAlarms(records, sample);
  for (const [channel, address] of [
    ['email', 'marta@example.org'],
    ['web-push', JSON.stringify({ endpoint: secret.pushEndpoint })],
    ['webhook', secret.webhook],
  ] as const)
    await records.ways.create({
      personId: person.id,
      channel,
      address,
      toldFrom: 'high',
      createdMs: startMs,
    });
  await records.audit.add({
    ...{ yardId: yard.id, atMs: startMs, by: person.id, role: 'owner', action: 'limits', target: pile.id },
    detail: 'ceiling 71 to 68',
  });
  await records.quarantine.add({
    ...{ receivedMs: startMs, topic: 'x/\u00fc', probe: null, reason: 'no SenML', payloadBytes: 3 },
    payloadStart: Uint8Array.of(0, 255, 10),
  });
  await furnishSecrets(records, person.id, yard.id);
}

type Sample = Parameters<typeof sampleAlarm>[0];

async function furnishAlarms(records: Records, sample: Sample): Promise<void> {
  const secret = secretsWithin;
  const alarm = sampleAlarm(sample);
  const link = {
    alarmId: alarm.id,
    occurrence: 1,
    personId: sample.person.id,
    expiresMs: startMs + minuteMs,
  };
  const answerLink = { ...link, tokenHash: secret.answerTokenHash };
  const about = { alarmId: alarm.id, occurrence: 1 };
  const text = `Cage 1: too hot. Seen K7: http://yard.example/a/${secret.answerToken}`;
  await records.alarms.commit({
    alarms: [alarm],
    transitions: [
      sampleTransition(alarm),
      sampleTransition(alarm, { event: 'acknowledge', to: 'acknowledged' }),
    ],
    messages: [
      sampleMessage(sample, { ...about, answerLink, text, priority: 'highest' }),
      sampleMessage(sample, { ...about, channel: 'webhook', address: secret.webhook }),
    ],
    statuses: [sampleStatus(sample.pile.id)],
    marks: [
      ['rules:cursor', '3'],
      [`rules:state:pile:${sample.pile.id}`, '{"kept":true}'],
    ],
  });
  const claim = { nowMs: startMs, limit: 1, leaseMs: minuteMs, claimant: 'n' };
  const [message] = await records.messages.claimDue(claim);
  const attempt = { messageId: message!.id, attempt: 1, startedMs: startMs, finishedMs: startMs + 2 };
  const outcome = { outcome: 'sent', detail: 'gateway took it', maybeSent: false } as const;
  const next = { state: 'sent', nextAttemptMs: startMs, gatewayReference: 'ref-1' } as const;
  await records.messages.finishAttempt({ ...attempt, ...outcome }, next);
}

async function furnishSecrets(records: Records, personId: string, yardId: string): Promise<void> {
  const secret = secretsWithin;
  const times = { createdMs: startMs, lastUsedMs: startMs, expiresMs: startMs + minuteMs };
  await records.sessions.create({ tokenHash: secret.sessionHash, personId, ...times });
  const link = { tokenHash: secret.setupHash, purpose: 'set-password', personId } as const;
  await records.setupLinks.create({ ...link, expiresMs: startMs + minuteMs });
  await records.wallLinks.create({
    ...{ yardId, tokenHash: secret.wallHash, label: 'hall', createdMs: startMs, createdBy: personId },
  });
  await records.marks.set('known-browsers:key', secret.browserKey);
}
