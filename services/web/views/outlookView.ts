import type { ExpectedView, OutlookView } from '../../../shared/api/types.ts';
import type { PileRecord } from '../../../shared/compost/forecast/fitPile.ts';
import { forecastMethods, methodCourse } from '../../../shared/compost/outlook/methodCourse.ts';
import type { PileDesign } from '../../../shared/compost/planner/pileDesign.ts';
import { courseDays } from '../../../shared/compost/planner/pilePlan.ts';
import { readPlan } from '../../../shared/compost/planner/planSchema.ts';
import type { Pile } from '../../../shared/yard/yard.ts';
import type { House } from '../house.ts';
import { pileRecord } from '../outlook/pileRecord.ts';

const hourMs = 3_600_000;
/** On simulated piles bands of a fit to two days held for the next three; before that there is too little to learn from. */
const hoursNeeded = 48;
/** A core silent for longer has become a guess. */
const silentAfterHours = 12;
/** The air of a usual pile is taken to the nearest of these, so that piles of a method share one run. */
const airStepCelsius = 4;

/** The pile as its plan has it; null when it was not planned here. Worked out once in a thread. */
export async function designOfPile(house: House, pileId: string): Promise<PileDesign | null> {
  const text = await house.records.designs.get(pileId);
  const plan = text === null ? null : readPlan(JSON.parse(text));
  if (plan === null) return null;
  return house.designs.ask(`design ${pileId}`, text!, async () => ({ kind: 'design', plan }));
}

/** What is to be expected of a pile, fitted to its own readings, or why that cannot be said yet. */
export async function outlookView(house: House, pile: Pile): Promise<OutlookView> {
  const placements = await house.records.placements.list(pile.yardId);
  const design = await designOfPile(house, pile.id);
  const record = await pileRecord(house, pile, placements, design);
  const state = stateOf(pile, record);
  const forecast = state === 'fitted' ? await forecastOf(house, pile, record) : null;
  const lastCoreMs = record.core.at(-1)?.timeMs ?? null;
  return { state, hoursRead: record.core.length, hoursNeeded, lastCoreMs, forecast };
}

function stateOf(pile: Pile, { core, untilMs }: PileRecord): OutlookView['state'] {
  if (pile.endedMs !== null) return 'ended';
  if (!forecastMethods.includes(pile.method)) return 'not-modelled';
  const last = core.at(-1);
  if (last === undefined) return 'no-core';
  if (core.length < hoursNeeded) return 'too-early';
  return untilMs - last.timeMs > silentAfterHours * hourMs ? 'core-silent' : 'fitted';
}

async function forecastOf(house: House, pile: Pile, record: PileRecord): Promise<OutlookView['forecast']> {
  const ceilingCelsius = await limitOf(house, pile, 'too-hot-ceiling', 'limitCelsius', 71);
  const dryFraction = await limitOf(house, pile, 'drying-out-estimated', 'limitFraction', 0.45);
  const lastHour = Math.floor(record.core.at(-1)!.timeMs / hourMs);
  // The fit works by hours: it changes with the last one read, with what was done, and with the limits.
  const done = [record.disturbedMs.length, record.disturbedMs.at(-1), record.addedWater?.length];
  const key = JSON.stringify([lastHour, record.core.length, done, ceilingCelsius, dryFraction]);
  const answer = await house.outlooks.ask(`forecast ${pile.id}`, key, async () => ({
    kind: 'forecast',
    question: { record, ceilingCelsius, dryFraction, seed: lastHour },
  }));
  return { ...answer, ceilingCelsius };
}

/** The limit in force: what was changed for this pile, else the method's default. */
async function limitOf(
  house: House,
  pile: Pile,
  condition: string,
  parameter: string,
  otherwise: number,
): Promise<number> {
  const { overrides } = await house.records.limits.current(pile.id);
  const facts = house.conditions.find(({ id }) => id === condition);
  const defaults = facts?.defaults(pile.method) as Readonly<Record<string, unknown>> | undefined;
  const value = overrides[condition]?.[parameter] ?? defaults?.[parameter];
  return typeof value === 'number' ? value : otherwise;
}

/** The band its plan, or a usual pile of its method in such air, keeps to. Asked apart: it takes longer than the fit. */
export async function expectedView(house: House, pile: Pile): Promise<ExpectedView['expected']> {
  const builtMs = pile.startedMs;
  const design = await designOfPile(house, pile.id);
  const planned = design?.question ?? null;
  if (planned !== null) {
    const job = async () => ({ kind: 'band', question: planned, builtMs }) as const;
    const band = await house.outlooks.ask(`band ${pile.id}`, JSON.stringify([planned, builtMs]), job);
    return { from: 'plan', band };
  }
  const placements = await house.records.placements.list(pile.yardId);
  const { meanAirCelsius } = await pileRecord(house, pile, placements, design);
  const airCelsius = Math.round(meanAirCelsius / airStepCelsius) * airStepCelsius;
  const usual = methodCourse(pile.method, airCelsius, courseDays);
  if (usual === null) return null;
  const job = async () => ({ kind: 'band', question: usual, builtMs: 0 }) as const;
  const band = await house.outlooks.ask(`band ${pile.method} ${airCelsius}`, 'usual', job);
  return { from: 'method', band: { ...band, startMs: builtMs } };
}
