import { describe, expect, test } from 'vitest';
import type { AlarmEvent, ConditionId } from '../alarms/alarm.ts';
import { apply, noChanges } from './alarmSteps.ts';
import { advance } from './assess.ts';
import { createPileSubject, type PileLimits, type PileSubject } from './pileSubject.ts';
import { course, hourMs, minuteMs, startMs, testFacts } from './testing/testPile.ts';

const limits: PileLimits = {
  version: 1,
  overrides: {
    'too-hot-ceiling': { limitCelsius: 70, deadbandCelsius: 2, onDelayMinutes: 10, offDelayMinutes: 0 },
    'too-hot-early-notice': { enabled: false },
  },
};

/** A pile judged hour by hour, the clock standing where the judging has come to. */
function pileOf(celsius: (hours: number) => number, chosen = limits) {
  const pile = createPileSubject(testFacts(), chosen);
  let hours = 0;
  const steps: [number, string, string][] = [];
  return {
    pile,
    steps,
    to(untilHours: number) {
      const samples = course('a', hours, untilHours, celsius);
      const changes = advance(pile.subject, samples, startMs + untilHours * hourMs - minuteMs);
      hours = untilHours;
      for (const { atMs, event, to } of changes.transitions)
        steps.push([(atMs - startMs) / hourMs, event, to]);
    },
    alarm: (condition: ConditionId = 'too-hot-ceiling') => pile.subject.alarms.get(condition)!,
  };
}

function act(pile: PileSubject, condition: ConditionId, event: AlarmEvent): string | null {
  const { subject } = pile;
  const rule = subject.rules.find((one) => one.condition.id === condition)!;
  return apply(subject, rule, subject.judged.view(subject.lastInstantMs), event, noChanges());
}

const acknowledge = (hours: number): AlarmEvent => ({
  kind: 'acknowledge',
  atMs: startMs + hours * hourMs,
  by: 'wren',
});

describe('an acknowledged alarm that still holds', () => {
  test('asks again a day later, as a new occurrence with a text', () => {
    const story = pileOf(() => 75);
    story.to(1);
    act(story.pile, 'too-hot-ceiling', acknowledge(1));
    story.to(24);
    expect(story.alarm()).toMatchObject({ state: 'acknowledged', occurrence: 1 });
    story.pile.subject.textsDue.clear();
    story.to(26);
    expect(story.steps.at(-1)).toEqual([25, 're-alarm', 'unacknowledged']);
    expect(story.alarm()).toMatchObject({ occurrence: 2, acknowledgedBy: null });
    expect(story.pile.subject.textsDue.get('too-hot-ceiling')).toMatchObject({ occurrence: 2 });
  });

  test('asks again when the limits say, and not once it is back to normal', () => {
    const own = { ...limits.overrides['too-hot-ceiling'], reAlarmMinutes: 180 };
    const story = pileOf((hours) => (hours < 6 ? 75 : 50), {
      version: 1,
      overrides: { 'too-hot-ceiling': own },
    });
    story.to(1);
    act(story.pile, 'too-hot-ceiling', acknowledge(1));
    story.to(5);
    expect(story.steps.at(-1)).toEqual([4, 're-alarm', 'unacknowledged']);
    act(story.pile, 'too-hot-ceiling', acknowledge(5));
    story.to(30);
    expect(story.alarm().state).toBe('normal');
  });
});

describe('fire danger', () => {
  const fire = 'too-hot-fire-danger';

  test('is held after the heat is gone until a person resets it, acknowledged or not', () => {
    const story = pileOf((hours) => (hours < 2 ? 84 : 40));
    story.to(8);
    expect(story.alarm(fire).state).toBe('latched-unacknowledged');
    expect(act(story.pile, fire, acknowledge(8))).toBeNull();
    story.to(9);
    expect(story.alarm(fire)).toMatchObject({ state: 'latched-acknowledged', acknowledgedBy: 'wren' });
    const reset = { kind: 'reset', atMs: startMs + 9 * hourMs, by: 'wren' } as const;
    expect(act(story.pile, fire, reset)).toBeNull();
    expect(story.alarm(fire)).toMatchObject({ state: 'normal', activeSinceMs: null });
  });

  test('cannot be reset while it burns, and asks again an hour after it was acknowledged', () => {
    const story = pileOf(() => 84);
    story.to(1);
    const reset = { kind: 'reset', atMs: startMs + hourMs, by: 'wren' } as const;
    expect(act(story.pile, fire, reset)).toMatch(/only an alarm that is held/);
    act(story.pile, fire, acknowledge(1));
    story.to(3);
    expect(story.steps.filter(([, event]) => event === 're-alarm')).toEqual([
      [2, 're-alarm', 'unacknowledged'],
    ]);
  });

  test('stays latched through shelving, and comes back as new when the heat does', () => {
    const story = pileOf((hours) => (hours < 2 || hours > 12 ? 84 : 40));
    story.to(8);
    const untilMs = startMs + 10 * hourMs;
    act(story.pile, fire, {
      kind: 'shelve',
      atMs: startMs + 8 * hourMs,
      by: 'wren',
      untilMs,
      reason: 'looked',
    });
    story.to(9);
    expect(story.alarm(fire)).toMatchObject({ state: 'shelved', hiddenReason: 'looked' });
    story.to(11);
    expect(story.alarm(fire).state).toBe('latched-unacknowledged');
    story.to(14);
    expect(story.alarm(fire)).toMatchObject({ state: 'unacknowledged', occurrence: 2 });
  });
});

describe('chattering', () => {
  /** Half an hour over the limit, half an hour under it, for some hours; then under it. */
  const chatter = (hours: number) => (hours < 8 && hours % 1 < 0.5 ? 73 : 65);
  const came = (story: ReturnType<typeof pileOf>) =>
    story.steps.filter(([, event]) => event === 'became-active');

  test('is held from the third time on, with the reason, until it has been back for four hours', () => {
    const story = pileOf(chatter);
    story.to(8);
    expect(came(story).map(([hours]) => Math.floor(hours))).toEqual([0, 1, 2]);
    expect(story.alarm().state).toBe('unacknowledged');
    expect(story.alarm().evidence.at(-1)!.label).toMatch(/came and went 3 times within 6 h/);
    story.to(13);
    const [hours, event] = story.steps.at(-1)!;
    expect([event, hours]).toEqual(['returned-to-normal', 11.5]);
  });

  test('twice in a morning is not chattering', () => {
    const story = pileOf((hours) => (hours < 2 ? chatter(hours) : 65));
    story.to(4);
    expect(story.steps.map(([, event]) => event)).toEqual([
      'became-active',
      'returned-to-normal',
      'became-active',
      'returned-to-normal',
    ]);
  });
});
