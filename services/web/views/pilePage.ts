import type { Alarm } from '../../../shared/alarms/alarm.ts';
import { standingStates } from '../../../shared/alarms/lifecycle.ts';
import type { AlarmView, PileChannel, PilePage, PlacementView, YardView } from '../../../shared/api/types.ts';
import type { Person, Role } from '../../../shared/yard/people.ts';
import type { Pile, Placement, Yard } from '../../../shared/yard/yard.ts';
import type { House } from '../house.ts';
import { alarmViewer, byPressingness, concerns, transitionView } from './alarmView.ts';
import { journalViewer } from './journalView.ts';
import {
  channelsOf,
  type LatestByChannel,
  lastGoodOf,
  lastOf,
  readingView,
  standingAt,
  yardAir,
} from './latest.ts';
import { limitsView } from './limitsView.ts';
import { messageView } from './messageView.ts';
import { peopleNames } from './names.ts';

const historyRows = 200;
const messageRows = 50;

/** Who looks: what they may do decides which buttons there are. */
export interface PageAsker {
  readonly role: Role;
  readonly person: Person | null;
}

/** Everything a pile's page shows but its curves. */
export async function pilePage(house: House, pile: Pile, yard: Yard, asker: PageAsker): Promise<PilePage> {
  const { role, person } = asker;
  const nowMs = house.clock.nowMs();
  const placements = await house.records.placements.list(yard.id);
  const ofPile = placements.filter((placement) => placement.pileId === pile.id);
  // An ended pile shows what stood in it when it ended.
  const standing = standingAt(ofPile, pile.endedMs === null ? nowMs : pile.endedMs - 1);
  const air = standingAt(placements, nowMs).filter((placement) => placement.pileId === null);
  const latest = await house.series.latest(channelsOf([...standing, ...air]));
  const statuses = await house.records.statuses.forYard(yard.id);
  const { pileId: _, ...status } = statuses.find(({ pileId }) => pileId === pile.id) ?? { pileId: null };
  return {
    yard: yardView(yard),
    nowMs,
    pile,
    status: 'assessedMs' in status ? status : null,
    air: yardAir(air, latest),
    channels: [...standing, ...air].map((placement) => pileChannel(placement, latest)),
    placements: ofPile.map(placementView),
    alarms: await alarmsOf(house, pile, standing, role),
    ...(await pastOf(house, pile, standing, person)),
    limits: await limitsView(house, pile),
    mayWrite: role !== 'viewer',
  };
}

async function alarmsOf(
  house: House,
  pile: Pile,
  standing: readonly Placement[],
  role: Role,
): Promise<AlarmView[]> {
  const view = await alarmViewer(house, pile.yardId, role);
  const alarms = await house.records.alarms.list(pile.yardId);
  const concerned = alarms
    .filter((alarm) => isShown(alarm) && concerns(alarm, pile.id, standing))
    .sort(byPressingness);
  return Promise.all(concerned.map(view));
}

/** Standing alarms, and hidden ones, so that a shelved one can be taken back. */
const isShown = ({ state }: Alarm): boolean => standingStates.includes(state) || hiddenStates.has(state);

const hiddenStates = new Set<string>(['shelved', 'suppressed', 'out-of-service']);

type Past = Pick<PilePage, 'history' | 'messages' | 'journal'>;

async function pastOf(
  house: House,
  pile: Pile,
  standing: readonly Placement[],
  person: Person | null,
): Promise<Past> {
  const nameOfPerson = await peopleNames(house, pile.yardId);
  const [history, messages, journal] = await Promise.all([
    historyOf(house, pile, standing),
    house.records.messages.forPile(pile.id, messageRows),
    house.records.journal.list(pile.id),
  ]);
  return {
    history: history.map((transition) => transitionView(house, nameOfPerson, transition)),
    messages: await Promise.all(messages.map((message) => messageView(house, message, nameOfPerson))),
    journal: journal.map(journalViewer(nameOfPerson, person)).sort((a, b) => b.timeMs - a.timeMs),
  };
}

/** What happened to the pile's own alarms and to those of the probes now in it, newest first. */
async function historyOf(house: House, pile: Pile, standing: readonly Placement[]) {
  const own = await house.records.alarms.history(pile.id, historyRows);
  const alarms = await house.records.alarms.list(pile.yardId);
  const ofProbes = alarms
    .filter(({ subject }) => subject.kind === 'probe')
    .filter((alarm) => concerns(alarm, pile.id, standing));
  const theirs = await Promise.all(
    ofProbes.map(async ({ id, condition }) => {
      const transitions = await house.records.alarms.transitions(id);
      return transitions.map((transition) => ({ ...transition, condition }));
    }),
  );
  return [...own, ...theirs.flat()].sort((one, other) => other.atMs - one.atMs).slice(0, historyRows);
}

function pileChannel(placement: Placement, latest: LatestByChannel): PileChannel {
  return {
    ...placementView(placement),
    last: readingView(lastOf(placement, latest)),
    lastGood: readingView(lastGoodOf(placement, latest)),
  };
}

export function placementView({ yardId: _, ...placement }: Placement): PlacementView {
  return placement;
}

export function yardView(yard: Yard): YardView {
  const { id, name, timeZone, temperatureUnit, altitudeMetres } = yard;
  return { id, name, timeZone, temperatureUnit, altitudeMetres };
}
