import type { Alarm, AlarmSubject, AlarmTransition, ConditionId } from '../../../shared/alarms/alarm.ts';
import { priorities } from '../../../shared/alarms/alarm.ts';
import { standingStates } from '../../../shared/alarms/lifecycle.ts';
import { lifecycleTable } from '../../../shared/alarms/lifecycleTable.ts';
import { alarmActions } from '../../../shared/api/alarms.ts';
import type { AlarmAction, AlarmTransitionView, AlarmView, WallAlarm } from '../../../shared/api/types.ts';
import { probeOwnsName } from '../../../shared/senml/channelName.ts';
import type { Role } from '../../../shared/yard/people.ts';
import type { Placement } from '../../../shared/yard/yard.ts';
import type { House } from '../house.ts';
import { explanationView } from './explanationView.ts';
import { conditionName, peopleNames } from './names.ts';

/** Least role for each action; the routes declare the same. */
export const roleForAction: Readonly<Record<AlarmAction, Role>> = {
  acknowledge: 'keeper',
  shelve: 'keeper',
  unshelve: 'keeper',
  reset: 'keeper',
  'take-out-of-service': 'owner',
  'return-to-service': 'owner',
};

export type AlarmViewer = (alarm: Alarm) => Promise<AlarmView>;

/** Prepares names once, then shows any number of alarms to one person. */
export async function alarmViewer(house: House, yardId: string, role: Role): Promise<AlarmViewer> {
  const nameOfPerson = await peopleNames(house, yardId);
  const nameOfSubject = await subjectNames(house, yardId);
  const unit = (await house.records.yards.get(yardId))?.temperatureUnit ?? 'C';
  return async (alarm) => ({
    id: alarm.id,
    code: alarm.code,
    subject: { ...alarm.subject, name: nameOfSubject(alarm.subject) },
    condition: alarm.condition,
    name: conditionName(house, alarm.condition),
    state: alarm.state,
    priority: alarm.priority,
    occurrence: alarm.occurrence,
    activeSinceMs: alarm.activeSinceMs,
    returnedMs: alarm.returnedMs,
    acknowledgedMs: alarm.acknowledgedMs,
    acknowledgedBy: nameOfPerson(alarm.acknowledgedBy),
    shelvedUntilMs: alarm.shelvedUntilMs,
    hiddenReason: alarm.hiddenReason,
    limitsVersion: alarm.limitsVersion,
    evidence: alarm.evidence,
    words: await house.wordsFor(alarm),
    explanation: explanationView(await house.explain(alarm, unit)),
    actions: actionsFor(alarm, role),
    version: alarm.version,
  });
}

/** What this role may do to the alarm as it stands, read off the same table the rules use. */
export function actionsFor(alarm: Pick<Alarm, 'state'>, role: Role): AlarmAction[] {
  const rank = { viewer: 0, keeper: 1, owner: 2 };
  return alarmActions.filter((action) => {
    const outcome = lifecycleTable[alarm.state][action];
    return outcome !== 'refuse' && outcome !== 'stay' && rank[role] >= rank[roleForAction[action]];
  });
}

/** Names of a yard's piles and probes, and its own. */
export async function subjectNames(house: House, yardId: string): Promise<(subject: AlarmSubject) => string> {
  const [piles, probes, yard] = await Promise.all([
    house.records.piles.list(yardId),
    house.records.probes.list(yardId),
    house.records.yards.get(yardId),
  ]);
  const names = new Map<string, string>([
    ...piles.map((pile) => [`pile ${pile.id}`, pile.name] as const),
    ...probes.map((probe) => [`probe ${probe.id}`, probe.label] as const),
    [`yard ${yardId}`, yard?.name ?? ''],
  ]);
  return (subject) => names.get(`${subject.kind} ${subject.id}`) ?? subject.id;
}

export function transitionView(
  house: House,
  nameOfPerson: (by: string | null) => string | null,
  transition: AlarmTransition & { readonly condition: ConditionId },
): AlarmTransitionView {
  return {
    alarmId: transition.alarmId,
    condition: transition.condition,
    name: conditionName(house, transition.condition),
    occurrence: transition.occurrence,
    atMs: transition.atMs,
    event: transition.event,
    from: transition.from,
    to: transition.to,
    by: nameOfPerson(transition.by),
    note: transition.note,
    limitsVersion: transition.limitsVersion,
    evidence: transition.evidence,
  };
}

export function wallAlarm(house: Pick<House, 'conditions'>, alarm: Alarm): WallAlarm {
  return {
    id: alarm.id,
    condition: alarm.condition,
    name: conditionName(house, alarm.condition),
    state: alarm.state,
    priority: alarm.priority,
    sinceMs: alarm.activeSinceMs,
    code: alarm.code,
  };
}

const unacknowledgedStates = new Set<string>([
  'unacknowledged',
  'returned-unacknowledged',
  'latched-unacknowledged',
]);

export const isStanding = (alarm: Alarm): boolean => standingStates.includes(alarm.state);
export const isUnacknowledged = (alarm: Alarm): boolean => unacknowledgedStates.has(alarm.state);

/** Whether an alarm is about a pile itself or about a probe that stands in it now. */
export function concerns({ subject }: Alarm, pileId: string, standing: readonly Placement[]): boolean {
  if (subject.kind === 'pile') return subject.id === pileId;
  if (subject.kind !== 'probe') return false;
  return standing.some((placed) => placed.pileId === pileId && probeOwnsName(subject.id, placed.channel));
}

/** Most pressing first; of two alike the one nobody has acknowledged, then the older. */
export function byPressingness(a: Alarm, b: Alarm): number {
  return (
    priorities.indexOf(a.priority) - priorities.indexOf(b.priority) ||
    Number(isUnacknowledged(b)) - Number(isUnacknowledged(a)) ||
    (a.activeSinceMs ?? 0) - (b.activeSinceMs ?? 0)
  );
}
