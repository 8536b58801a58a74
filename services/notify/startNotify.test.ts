import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { eventually } from '../../tests/helpers/eventually.ts';
import { minuteMs, noonMs, type OutboxRig, openOutboxRig } from '../../tests/helpers/outboxRig.ts';

let rig: OutboxRig;
beforeEach(async () => {
  rig = await openOutboxRig();
});
afterEach(() => rig.close());

const becomes = (id: string, state: string) =>
  eventually(`message is ${state}`, async () => (await rig.stateOf(id)) === state);
const given = () => rig.channel.given.map(({ id }) => id);

describe('the notifier', () => {
  test('sends what is due, writes down the attempt and what the gateway called it', async () => {
    const id = await rig.text(await rig.person('wren'), await rig.alarm());
    rig.start();
    await becomes(id, 'sent');
    expect(await rig.records.messages.get(id)).toMatchObject({ attempts: 1, gatewayReference: `ref ${id}` });
    expect(await rig.records.messages.attempts(id)).toMatchObject([{ outcome: 'sent', maybeSent: false }]);
  });

  test('a nudge wakes it for a message written later', async () => {
    const notify = rig.start();
    const id = await rig.text(await rig.person('wren'), await rig.alarm());
    notify.nudge();
    await becomes(id, 'sent');
  });

  test('tries again after a doubling wait, and says which attempt may have gone out', async () => {
    rig.channel.answer = () => ({ kind: 'retry', detail: 'line broke', maybeSent: true });
    const id = await rig.text(await rig.person('wren'), await rig.alarm());
    const notify = rig.start();
    await eventually('first attempt', async () => (await rig.records.messages.get(id))?.attempts === 1);
    const first = (await rig.records.messages.get(id))!;
    expect(first).toMatchObject({ state: 'waiting', nextAttemptMs: noonMs + 2500, maybeSent: 1 });
    rig.clock.ms = first.nextAttemptMs;
    notify.nudge();
    await eventually('second attempt', async () => (await rig.records.messages.get(id))?.attempts === 2);
    expect((await rig.records.messages.get(id))?.nextAttemptMs).toBe(rig.clock.ms + 5000);
    expect((await rig.records.messages.standing()).maybeTwice).toBe(1);
  });

  test('a slow call to one person holds back neither the others nor what comes later', async () => {
    let free = () => {};
    const held = new Promise<void>((resolve) => {
      free = resolve;
    });
    rig.channel.answer = async (message) => {
      if (message.id === slow) await held;
      return { kind: 'sent', detail: 'taken', reference: null };
    };
    const slow = await rig.text(await rig.person('wren'), await rig.alarm());
    const notify = rig.start();
    await eventually('the slow one is under way', () => given().includes(slow));
    const later = await rig.text(await rig.person('ash'), await rig.alarm());
    notify.nudge();
    await becomes(later, 'sent');
    expect(await rig.stateOf(slow)).toBe('sending');
    free();
    await becomes(slow, 'sent');
  });

  test('one that grew too old is not sent, what came after it is', async () => {
    const [wren, alarm] = [await rig.person('wren'), await rig.alarm()];
    const heading = await rig.text(wren, await rig.alarm({ condition: 'too-hot-heading-there' }), {
      expiresMs: noonMs + 120 * minuteMs,
    });
    rig.clock.ms = noonMs + 180 * minuteMs;
    const ceiling = await rig.text(wren, alarm);
    rig.start();
    await becomes(ceiling, 'sent');
    expect(await rig.stateOf(heading)).toBe('expired');
    expect(given()).toEqual([ceiling]);
  });

  test('one about what is over, answered or hidden is not sent any more; fire danger goes on to the others', async () => {
    const wren = await rig.person('wren');
    const about = async (change: Parameters<OutboxRig['alarm']>[0]) =>
      rig.text(wren, await rig.alarm(change));
    const over = [
      await about({ state: 'normal' }),
      await about({ state: 'acknowledged' }),
      await about({ state: 'shelved' }),
      await rig.text(wren, await rig.alarm({ occurrence: 2 }), { occurrence: 1 }),
      await about({ state: 'returned-unacknowledged', priority: 'highest' }),
    ];
    const fire = await about({ state: 'acknowledged', priority: 'highest' });
    rig.start();
    for (const id of over) await becomes(id, 'not-needed');
    await becomes(fire, 'sent');
    expect(given()).toEqual([fire]);
  });

  test('an address that is no more is not used again', async () => {
    const wren = await rig.person('wren');
    await rig.records.ways.create({
      ...{ personId: wren.id, channel: 'sms-http', address: wren.phone!, toldFrom: 'low', createdMs: noonMs },
    });
    rig.channel.answer = () => ({ kind: 'gave-up', detail: 'subscription ended', addressGone: true });
    const id = await rig.text(wren, await rig.alarm());
    rig.start();
    await becomes(id, 'failed');
    await eventually('the way is gone', async () => {
      const [way] = await rig.records.ways.list(rig.yard.id);
      return way?.goneDetail === 'subscription ended';
    });
  });

  test('stops without leaving an attempt unrecorded', async () => {
    rig.channel.answer = async () => {
      await new Promise((resolve) => setTimeout(resolve, 50));
      return { kind: 'sent', detail: 'taken', reference: null };
    };
    const id = await rig.text(await rig.person('wren'), await rig.alarm());
    const notify = rig.start();
    await eventually('it is under way', () => rig.channel.given.length === 1);
    await notify.stop();
    expect(await rig.stateOf(id)).toBe('sent');
  });
});

describe('what a person gets in an hour and at night', () => {
  test('beyond the hour it is told together, honestly, and nothing is lost', async () => {
    const wren = await rig.person('wren');
    await rig.savePlan({ textsPerHour: 3 });
    const ids: string[] = [];
    for (let count = 0; count < 9; count += 1) ids.push(await rig.text(wren, await rig.alarm()));
    rig.start({ publicUrl: () => 'http://yard.test' });
    await eventually('three texts went', () => rig.channel.given.length === 3);
    const [, , third] = rig.channel.given;
    expect(third).toMatchObject({ kind: 'several', text: expect.stringContaining('and 7 more') });
    expect(third?.text).toContain('More like these from 13:00; fire danger at once.');
    const states = await Promise.all(ids.map((id) => rig.stateOf(id)));
    expect(states.filter((state) => state === 'sent')).toHaveLength(2);
    expect(states.filter((state) => state === 'told-together')).toHaveLength(7);
  });

  test('fire danger goes at once, however many there were', async () => {
    const wren = await rig.person('wren');
    await rig.savePlan({ textsPerHour: 2 });
    for (let count = 0; count < 6; count += 1) await rig.text(wren, await rig.alarm());
    const notify = rig.start();
    await eventually('the hour is full', () => rig.channel.given.length === 2);
    const fire = await rig.text(wren, await rig.alarm({ priority: 'highest' }));
    const later = await rig.text(wren, await rig.alarm());
    notify.nudge();
    await becomes(fire, 'sent');
    await eventually(
      'the other waits',
      async () => (await rig.records.messages.get(later))?.heldFor === 'cap',
    );
    expect((await rig.records.messages.get(later))?.nextAttemptMs).toBe(noonMs + 60 * minuteMs);
  });

  test('the first text goes at once, those of the same minute together after it, fire danger not with them', async () => {
    const wren = await rig.person('wren');
    await rig.savePlan({ groupSeconds: 60 });
    const first = await rig.text(wren, await rig.alarm({ code: 'K7' }));
    const notify = rig.start();
    await becomes(first, 'sent');
    rig.clock.ms += 20_000;
    const [one, two] = [
      await rig.text(wren, await rig.alarm({ code: 'B4', priority: 'medium' }), {
        firstAction: 'Find out why it is silent.',
      }),
      await rig.text(wren, await rig.alarm({ code: 'C3' }), { firstAction: 'Open both ends.' }),
    ];
    const fire = await rig.text(wren, await rig.alarm({ priority: 'highest' }));
    notify.nudge();
    await becomes(fire, 'sent');
    await eventually('both wait', async () => (await rig.records.messages.get(two))?.heldFor === 'group');
    rig.clock.ms += 40_000;
    notify.nudge();
    await becomes(one, 'told-together');
    await becomes(two, 'told-together');
    await eventually('they went', () => rig.channel.given.length === 3);
    expect(rig.channel.given[2]?.text).toMatch(
      /^Gannet Row: 2 more: (Cage \d+) core too hot C3; Cage \d+ core too hot B4\. First \1: Open both ends\./,
    );
  });

  test('a milestone reached at night is told in the morning', async () => {
    rig.clock.ms = noonMs + 11 * 60 * minuteMs;
    const id = await rig.text(await rig.person('wren'), null, { kind: 'milestone', priority: 'low' });
    const notify = rig.start();
    await eventually('it waits', async () => (await rig.records.messages.get(id))?.heldFor === 'quiet');
    rig.clock.ms = noonMs + 18.5 * 60 * minuteMs;
    notify.nudge();
    await becomes(id, 'sent');
  });

  test('what comes at night and can wait is one text in the morning; what is over by then is left out', async () => {
    const wren = await rig.person('wren');
    rig.clock.ms = noonMs + 11 * 60 * minuteMs;
    const low = async () => {
      const alarm = await rig.alarm({ priority: 'low' });
      return { alarm, id: await rig.text(wren, alarm) };
    };
    const [one, two, three] = [await low(), await low(), await low()];
    const high = await rig.text(wren, await rig.alarm());
    const notify = rig.start();
    await becomes(high, 'sent');
    await eventually(
      'three wait',
      async () => (await rig.records.messages.get(three.id))?.heldFor === 'quiet',
    );
    await rig.commit({ alarms: [{ ...two.alarm, state: 'normal', version: 2 }] });
    rig.clock.ms = noonMs + 18.5 * 60 * minuteMs;
    notify.nudge();
    await becomes(one.id, 'told-together');
    await becomes(two.id, 'not-needed');
    await eventually('the summary went', () => rig.channel.given.length === 2);
    expect(rig.channel.given[1]?.text).toContain('2 from the night that could wait');
  });
});
