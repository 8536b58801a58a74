import type { HeatRecordView, RecordAlarm, RecordStanding } from '../../../shared/api/types.ts';
import type { RuleSet } from '../../../shared/compost/sanitisation/ruleSet.ts';
import { ruleSetsFor } from '../../../shared/compost/sanitisation/ruleSets.ts';
import { heatRecord, type RecordSource, recordGaps } from '../../../shared/rules/heatRecord.ts';
import type { PastHour } from '../../../shared/rules/pastHour.ts';
import { shownRule } from '../../../shared/rules/sanitisationRecord.ts';
import type { PileMethod } from '../../../shared/yard/method.ts';
import { type Pile, type Placement, positions, type Yard } from '../../../shared/yard/yard.ts';
import type { House } from '../house.ts';
import { ApiProblem } from '../problems/apiProblem.ts';
import { journalViewer } from './journalView.ts';
import { peopleNames } from './names.ts';
import { placementView, yardView } from './pilePage.ts';

/** More steps of alarms than any pile's story has; the newest are kept. */
const mostAlarmSteps = 5000;

const markOf = (yardId: string, method: PileMethod): string => `record-rule.${yardId}.${method}`;

/** The rule a yard goes by for a method: what somebody chose, else the usual one; null where nothing is asked. */
export async function ruleFor(house: House, yardId: string, method: PileMethod): Promise<RuleSet | null> {
  const chosen = await house.records.marks.get(markOf(yardId, method));
  return ruleSetsFor(method).find(({ id }) => id === chosen) ?? shownRule(method);
}

export function chooseRule(house: House, yardId: string, method: PileMethod, ruleId: string): Promise<void> {
  return house.records.marks.set(markOf(yardId, method), ruleId);
}

/** An ended pile is read as it was when it ended. */
const readUpTo = (house: House, pile: Pile): number =>
  pile.endedMs === null ? house.clock.nowMs() : pile.endedMs - 1;

async function sourceOf(house: House, pile: Pile, nowMs: number): Promise<RecordSource> {
  const source = await house.rules.readPast?.(pile.id, { fromMs: nowMs, toMs: nowMs });
  if (source === undefined || source === null)
    throw new ApiProblem('not-ready', 'Judgement is not running here, so no record can be read.');
  return source;
}

/** A pile's whole heat record with its evidence. */
export async function heatRecordView(house: House, pile: Pile, yard: Yard): Promise<HeatRecordView> {
  const nowMs = readUpTo(house, pile);
  const source = await sourceOf(house, pile, nowMs);
  const nameOfPerson = await peopleNames(house, yard.id);
  const placements = (await house.records.placements.forPile(pile.id))
    .filter(({ quantity }) => quantity === 'temperature' || quantity === 'moisture')
    .sort(insideOut);
  const calibrations = await house.records.probes.calibrations(yard.id);
  const chosen = await ruleFor(house, yard.id, pile.method);
  const journal = await house.records.journal.list(pile.id);
  return {
    ...{ yard: yardView(yard), pile, nowMs, madeMs: house.clock.nowMs(), chosenRuleId: chosen?.id ?? null },
    results: heatRecord(source, ruleSetsFor(pile.method), nowMs, yard.temperatureUnit),
    placements: placements.map(placementView),
    hours: hourColumns(source.hoursBefore ?? [], [...placements.map(({ id }) => id), ...handIds(source)]),
    gaps: recordGaps(source, nowMs),
    journal: journal.map(journalViewer(nameOfPerson, null)),
    alarms: await alarmsOf(house, pile, nameOfPerson),
    calibrations: calibrations.filter(({ channel }) => placements.some((one) => one.channel === channel)),
  };
}

/** Core first, then outwards; deeper before shallower. */
function insideOut(one: Placement, other: Placement): number {
  const rank = ({ position }: Placement) => positions.indexOf(position);
  return rank(one) - rank(other) || (other.depthMetres ?? 0) - (one.depthMetres ?? 0);
}

/** Readings by hand have a placement of their own that no record knows. */
const handIds = ({ facts }: RecordSource): string[] =>
  facts.placed.filter(({ byHand }) => byHand === true).map(({ placement }) => placement.id);

function hourColumns(hours: readonly PastHour[], ids: readonly string[]): HeatRecordView['hours'] {
  const column = (id: string) =>
    hours.map(({ means }) => {
      const mean = means.find(({ placementId }) => placementId === id)?.mean;
      return mean === undefined ? null : Math.round(mean * 100) / 100;
    });
  return {
    startsMs: hours.map(({ startMs }) => startMs),
    means: Object.fromEntries(ids.map((id) => [id, column(id)])),
  };
}

/** Each time an alarm of the pile stood, oldest first. */
async function alarmsOf(
  house: House,
  pile: Pile,
  nameOfPerson: (by: string | null) => string | null,
): Promise<RecordAlarm[]> {
  const steps = [...(await house.records.alarms.history(pile.id, mostAlarmSteps))].reverse();
  const stood = Map.groupBy(steps, ({ alarmId, occurrence }) => `${alarmId} ${occurrence}`);
  return [...stood.values()].flatMap((own): RecordAlarm[] => {
    const came = own.find(({ event }) => event === 'became-active');
    if (came === undefined) return [];
    const seen = own.find(({ event }) => event === 'acknowledge');
    return [
      {
        condition: came.condition,
        fromMs: came.atMs,
        toMs: own.find(({ event }) => event === 'returned-to-normal')?.atMs ?? null,
        seenBy: seen === undefined ? null : nameOfPerson(seen.by),
      },
    ];
  });
}

/** Where a pile's record stands by the rule the yard goes by. */
export async function recordStanding(house: House, pile: Pile, yard: Yard): Promise<RecordStanding> {
  const rule = await ruleFor(house, yard.id, pile.method);
  if (rule === null) return { pile, standing: null };
  const nowMs = readUpTo(house, pile);
  const source = await sourceOf(house, pile, nowMs);
  const [standing] = heatRecord(source, [rule], nowMs, yard.temperatureUnit);
  return { pile, standing: standing! };
}
