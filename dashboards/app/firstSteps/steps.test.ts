import { expect, it } from 'vitest';
import { doneSteps, nextStep, type SetUpFacts, stepAfter, stepKeys } from './steps.ts';

const none: SetUpFacts = {
  ...{ people: [], reachableIds: [], piles: [], probes: [], placements: [] },
  ...{ calibrations: [], messages: [], wallLinks: [] },
};
/** As much of a row as the walk looks at. */
const some = <T>(row: object) => [row as T] as const;
const done = (change: Partial<SetUpFacts>) => [...doneSteps({ ...none, ...change })];

it('a new yard has its yard behind it and people before it', () => {
  expect(done({})).toEqual(['yard']);
  expect(nextStep(doneSteps(none))).toBe('people');
});

it.each([
  ['people', { reachableIds: ['ash'] }],
  ['pile', { piles: some({ endedMs: null }) }],
  ['probe', { probes: some({ channels: [{}] }) }],
  ['channels', { placements: some({ toMs: null, pileId: 'p' }) }],
  ['ice', { calibrations: some({}) }],
  ['text', { messages: some({ state: 'sent' }) }],
  ['wall', { wallLinks: some({ revokedMs: null }) }],
] as const)('%s is done once the yard has it', (key, change) => {
  expect(done(change as Partial<SetUpFacts>)).toEqual(
    stepKeys.filter((one) => one === 'yard' || one === key),
  );
});

it.each([
  ['an ended pile', { piles: some({ endedMs: 5 }) }],
  ['a probe that has said nothing', { probes: some({ channels: [] }) }],
  ['a sensor of the yard itself', { placements: some({ toMs: null, pileId: null }) }],
  ['a sensor that was taken out', { placements: some({ toMs: 5, pileId: 'p' }) }],
  ['a text that is still waiting', { messages: some({ state: 'waiting' }) }],
  ['a wall link that was taken back', { wallLinks: some({ revokedMs: 5 }) }],
] as const)('%s does not count', (_what, change) => {
  expect(done(change as Partial<SetUpFacts>)).toEqual(['yard']);
});

it('goes on where the first thing is missing, and ends', () => {
  expect(nextStep(new Set(stepKeys))).toBeNull();
  expect(nextStep(new Set(stepKeys.filter((key) => key !== 'ice')))).toBe('ice');
  expect(stepAfter('text')).toBe('wall');
  expect(stepAfter('wall')).toBeNull();
});
