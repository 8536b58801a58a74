import { afterEach, describe, expect, test } from 'vitest';
import { type JudgedYard, startJudgedYard, startMs } from '../helpers/judgedYard.ts';

const minuteMs = 60_000;
const dayMinutes = 1440;
let yard: JudgedYard;
afterEach(() => yard.stop());

const texts = async () => (await yard.texts()).map(({ text }) => text);

describe('the service was away', () => {
  test('for hours: nobody is called silent who had nobody to speak to, until an hour has passed again', async () => {
    yard = await startJudgedYard({ piles: 4 });
    await yard.live(0, 60, () => 60);
    await yard.restartAt(300);
    await yard.judgeAt(301);
    expect(await yard.standing()).toEqual([]);
    for (let minutes = 305; minutes < 338; minutes += 4) await yard.judgeAt(minutes);
    // A second, short stop does not make them heard.
    await yard.restartAt(340);
    for (let minutes = 341; minutes < 385; minutes += 4) await yard.judgeAt(minutes);
    expect((await yard.standing()).filter((one) => one.endsWith('unacknowledged'))).toHaveLength(1);
    expect(await texts()).toHaveLength(1);
  });

  test('who was silent before it stays so, and is not told of twice', async () => {
    yard = await startJudgedYard({ piles: 4 });
    await yard.live(0, 60, () => 60);
    await yard.live(60, 180, () => 60, [0, 1, 2]);
    expect(await yard.standing()).toEqual(['probe-silent unacknowledged']);
    await yard.restartAt(600);
    await yard.judgeAt(601);
    expect(await yard.standing()).toEqual(['probe-silent unacknowledged']);
    expect(await texts()).toHaveLength(1);
  });

  test('what was measured meanwhile and comes in a pack is judged by when it was', async () => {
    yard = await startJudgedYard();
    await yard.live(0, 30, () => 60);
    await yard.restartAt(300);
    for (let minutes = 30; minutes < 300; minutes += 5) await yard.store(0, minutes, minutes < 200 ? 60 : 73);
    await yard.judgeAt(302);
    expect(await yard.steps('too-hot-ceiling')).toEqual([['became-active', 230]]);
  });
});

describe('the service was away for longer than raw readings are read again', () => {
  const days = 9;
  const heatOf = async () => {
    const [status] = await yard.records.statuses.forYard(yard.yard.id);
    return [status!.hoursAbove55, status!.sanitisationProgress] as const;
  };

  test('what was measured meanwhile counts once, as if the service had been there', async () => {
    const celsius = (minutes: number) => (minutes < 5 * dayMinutes ? 57 : 50);
    const runs: Awaited<ReturnType<typeof heatOf>>[] = [];
    for (const isAway of [false, true]) {
      yard = await startJudgedYard();
      await yard.live(0, 120, celsius);
      for (let minutes = 120; minutes < days * dayMinutes; minutes += 60) {
        await yard.store(0, minutes, celsius(minutes));
        if (!isAway && minutes % 720 === 0) await yard.judgeAt(minutes + 2);
      }
      await (isAway ? yard.restartAt(days * dayMinutes + 5) : yard.restart());
      await yard.judgeAt(days * dayMinutes + 10);
      runs.push(await heatOf());
      if (!isAway) await yard.stop();
    }
    expect(runs[0]![0]).toBeCloseTo(5 * 24 - 1, 0);
    expect(runs[1]).toEqual(runs[0]);
  });
});

describe('the clock', () => {
  test('leaps ahead: no false silence, and judging goes on at the new time', async () => {
    yard = await startJudgedYard({ piles: 4 });
    await yard.live(0, 60, () => 60);
    await yard.judgeAt(2 * dayMinutes);
    expect(await yard.standing()).toEqual([]);
    await yard.live(2 * dayMinutes + 5, 2 * dayMinutes + 60, () => 73);
    expect(await yard.steps('too-hot-ceiling')).toEqual([['became-active', 2 * dayMinutes + 35]]);
    expect(await yard.alarm('too-hot-ceiling')).toMatchObject({ state: 'unacknowledged' });
  });

  test('goes back: what was told of times that have not come is taken back, and new alarms come at once', async () => {
    yard = await startJudgedYard({ piles: 4 });
    await yard.live(0, 30, () => 60);
    // The clock is a day ahead, and silence lasts long enough for an alarm.
    await yard.judgeAt(dayMinutes);
    for (let minutes = 1; minutes < 90; minutes += 4) await yard.judgeAt(dayMinutes + minutes);
    expect(await yard.standing()).toContain('probe-silent unacknowledged');
    await yard.judgeAt(35);
    await yard.live(35, 40, () => 60);
    expect(new Set(await yard.standing())).toEqual(new Set(['probe-silent returned-unacknowledged']));
    await yard.live(40, 80, () => 73);
    expect(await yard.steps('too-hot-ceiling')).toEqual([['became-active', 70]]);
    const about = (await yard.texts()).filter(({ text }) => /core too hot/.test(text));
    expect(about).not.toEqual([]);
  });

  test('went back while the service was stopped: the same', async () => {
    yard = await startJudgedYard();
    await yard.live(dayMinutes, dayMinutes + 50, () => 73);
    expect(await yard.alarm('too-hot-ceiling')).toMatchObject({ state: 'unacknowledged' });
    await yard.restartAt(60);
    await yard.live(60, 110, () => 60);
    expect(await yard.alarm('too-hot-ceiling')).toMatchObject({ state: 'returned-unacknowledged' });
    // What was stamped by the wrong clock counts when that time comes.
    await yard.judgeAt(dayMinutes + 50);
    expect((await yard.records.statuses.forYard(yard.yard.id))[0]).toMatchObject({ coreCelsius: 73 });
  });

  test('readings that a wrong clock stamped wait for the time they claim', async () => {
    yard = await startJudgedYard();
    await yard.live(0, 30, () => 60);
    await yard.store(0, 200, 85);
    await yard.live(30, 60, () => 60);
    expect(await yard.standing()).toEqual([]);
    await yard.restart();
    await yard.live(60, 90, () => 60);
    expect(await yard.standing()).toEqual([]);
  });
});

describe('a probe is moved', () => {
  test('in mid-window: each reading counts for the pile it was taken in, also one that comes late', async () => {
    yard = await startJudgedYard({ piles: 2 });
    await yard.live(0, 60, (_minutes, number) => (number === 0 ? 73 : 50));
    const first = (await yard.records.placements.forPile(yard.piles[0]!.id))[0]!;
    const second = (await yard.records.placements.forPile(yard.piles[1]!.id))[0]!;
    for (const { id } of [first, second]) await yard.records.placements.end(id, startMs + 60 * minuteMs);
    await yard.place(0, yard.piles[1]!.id, startMs + 60 * minuteMs);
    yard.rules().factsChanged();
    await yard.live(60, 120, () => 50, [0]);
    // The old pile is not known to be cooler: its probe has only gone.
    expect(await yard.alarm('too-hot-ceiling')).toMatchObject({ state: 'unacknowledged' });
    expect(await yard.alarm('too-hot-ceiling', yard.piles[1])).toBeNull();
    const [, status] = (await yard.records.statuses.forYard(yard.yard.id)).sort((a, b) =>
      a.pileId === yard.piles[0]!.id ? -1 : b.pileId === yard.piles[0]!.id ? 1 : 0,
    );
    expect(status).toMatchObject({ pileId: yard.piles[1]!.id, coreCelsius: 50 });
    await yard.store(0, 58, 76);
    await yard.judgeAt(124);
    expect(await yard.alarm('too-hot-ceiling', yard.piles[1])).toBeNull();
  });

  test('in the past, as somebody writes down only now: judged from now on under the new placement', async () => {
    yard = await startJudgedYard({ piles: 2 });
    await yard.live(0, 60, (_minutes, number) => (number === 0 ? 73 : 50));
    const [placement] = await yard.records.placements.forPile(yard.piles[0]!.id);
    await yard.records.placements.end(placement!.id, startMs);
    const [other] = await yard.records.placements.forPile(yard.piles[1]!.id);
    await yard.records.placements.end(other!.id, startMs);
    await yard.place(0, yard.piles[1]!.id, startMs);
    yard.rules().factsChanged();
    await yard.live(60, 120, () => 73, [0]);
    expect(await yard.alarm('too-hot-ceiling', yard.piles[1])).toMatchObject({ state: 'unacknowledged' });
  });
});

describe('two cores disagree', () => {
  test('the hotter one is believed: hot alarms are raised, cold ones are not', async () => {
    yard = await startJudgedYard();
    await yard.addProbe(1, yard.piles[0]!.id);
    yard.rules().factsChanged();
    await yard.live(0, 60, (_minutes, number) => (number === 0 ? 74 : 45), [0, 1]);
    expect(await yard.alarm('too-hot-ceiling')).toMatchObject({ state: 'unacknowledged' });
    const [status] = await yard.records.statuses.forYard(yard.yard.id);
    expect(status).toMatchObject({ coreCelsius: 74 });
    // The hotter one dies: the cooler one proves nothing.
    await yard.live(60, 240, () => 45, [1]);
    expect(await yard.alarm('too-hot-ceiling')).toMatchObject({ state: 'unacknowledged' });
  });
});

describe('readings by hand', () => {
  test('are judged in a yard without probes, texted as such, and survive a restart', async () => {
    yard = await startJudgedYard({ probes: false });
    await yard.judgeAt(60);
    await yard.write('hand-reading', 55, 74);
    for (let minutes = 61; minutes < 100; minutes += 5) await yard.judgeAt(minutes);
    expect(await yard.steps('too-hot-ceiling')).toEqual([['became-active', 85]]);
    expect(await texts()).toHaveLength(1);
    await yard.restart();
    await yard.judgeAt(101);
    await yard.write('hand-reading', 102, 60);
    for (let minutes = 103; minutes < 150; minutes += 5) await yard.judgeAt(minutes);
    expect(await yard.alarm('too-hot-ceiling')).toMatchObject({ state: 'returned-unacknowledged' });
  });

  test('judged long ago are not judged again at a restart', async () => {
    yard = await startJudgedYard({ probes: false });
    for (const day of [0, 1, 5, 6]) {
      await yard.judgeAt(day * dayMinutes + 1);
      await yard.write('hand-reading', day * dayMinutes, day % 5 === 0 ? 74 : 55);
      for (let minutes = 2; minutes < 60; minutes += 8) await yard.judgeAt(day * dayMinutes + minutes);
    }
    const before = await yard.steps('too-hot-ceiling');
    expect(before.filter(([event]) => event === 'became-active')).toHaveLength(2);
    await yard.restartAt(6 * dayMinutes + 70);
    await yard.judgeAt(6 * dayMinutes + 71);
    expect(await yard.steps('too-hot-ceiling')).toEqual(before);
  });

  test('written while the service was away are judged by when they were taken', async () => {
    yard = await startJudgedYard({ probes: false });
    await yard.judgeAt(60);
    await yard.write('hand-reading', 130, 74);
    await yard.restartAt(200);
    await yard.judgeAt(201);
    expect(await yard.steps('too-hot-ceiling')).toEqual([['became-active', 160]]);
  });

  test('written late, of yesterday, are judged by when they were taken', async () => {
    yard = await startJudgedYard();
    await yard.live(0, 600, () => 60);
    await yard.write('hand-reading', 300, 75);
    await yard.live(600, 610, () => 60);
    expect((await yard.steps('too-hot-ceiling'))[0]).toEqual(['became-active', 330]);
  });
});

test('without an air sensor a pile that never heated is still found', async () => {
  yard = await startJudgedYard();
  for (let hours = 0; hours < 24 * 5; hours += 1) await yard.store(0, hours * 60, 18);
  await yard.judgeAt(24 * 5 * 60);
  expect(await yard.alarm('too-cold-never-heated')).toMatchObject({ state: 'unacknowledged' });
});

describe('a reading by hand', () => {
  const ceilingAfter = async (isWrong: boolean) => {
    yard = await startJudgedYard();
    await yard.live(0, 60, () => 60);
    const entry = await yard.write('hand-reading', 62, 75);
    await yard.live(65, 75, () => 60);
    if (isWrong) await yard.takeBack(entry);
    await yard.live(75, 180, () => 60);
    return yard.steps('too-hot-ceiling');
  };

  test('too hot raises the ceiling, and taken back as a wrong press raises nothing', async () => {
    expect(await ceilingAfter(false)).toHaveLength(1);
    await yard.stop();
    expect(await ceilingAfter(true)).toEqual([]);
  });
});
