import { describe, expect, test } from 'vitest';
import { createPileSubject, type PileSample, refill } from '../rules/pileSubject.ts';
import { atInstant, type PileFacts } from '../rules/pileWindow.ts';
import {
  course,
  defaultLimits,
  hourMs,
  merged,
  placed,
  startMs,
  testFacts,
} from '../rules/testing/testPile.ts';
import { explain } from './explain.ts';
import { factsFromWindow } from './facts/fromWindow.ts';

const channels = [
  placed('a'),
  placed('m', 'shoulder', 'moisture'),
  placed('e', 'edge'),
  placed('air', 'air', 'temperature', { pileId: null }),
];

function factsAfter(samples: readonly PileSample[], hours: number, facts: PileFacts) {
  const pile = createPileSubject(facts, defaultLimits);
  refill(pile, samples);
  atInstant(pile.window, startMs + hours * hourMs);
  return factsFromWindow(pile.window);
}

/** Hot for a week, then cooling towards the air while it dries. */
const driedOut = merged(
  course('a', 0, 240, (hours) => (hours < 168 ? 60 : Math.max(22, 60 - (hours - 168) * 0.6)), 30),
  course('m', 0, 240, (hours) => Math.max(0.26, 0.6 - hours * 0.0016), 30),
  course('e', 0, 240, () => 30, 30),
  course('air', 0, 240, () => 12, 30),
);

describe('explaining an alarm from a pile’s window', () => {
  const facts = factsAfter(driedOut, 239.9, testFacts({ method: 'hot-bin', channels }));

  test('takes over what the window knows and nothing else', () => {
    expect(facts.moistureFraction).toBeCloseTo(0.26, 1);
    expect(facts.edgeCelsius).toBe(30);
    expect(facts.core.length).toBeGreaterThan(200);
    expect(facts.air.length).toBeGreaterThan(200);
    expect([facts.mix, facts.volumeM3, facts.hasDoubtfulProbe]).toEqual([null, null, false]);
  });

  test('a pile that stalled dry is most likely dry, and is to be watered, not turned first', () => {
    const { diagnosis, advice } = explain('stalled', facts, false, 'C')!;
    expect(diagnosis.causes[0].cause).toBe('too-dry');
    expect(advice.firstAction.toLowerCase()).toMatch(/water|wet/);
  });

  test('while a fire alarm stands nothing but the fire ladder speaks', () => {
    const { advice } = explain('too-hot-ceiling', facts, true, 'C')!;
    expect(advice.firstAction.toLowerCase()).toContain('fire service');
    expect(advice.actions.some(({ deeds }) => deeds.length > 0)).toBe(false);
  });

  test('alarms about probes have no causes in the pile', () => {
    expect(explain('probe-silent', facts, false, 'C')).toBeNull();
  });
});
