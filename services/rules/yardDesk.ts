import type { Alarm, AlarmSubject } from '../../shared/alarms/alarm.ts';
import { advance } from '../../shared/rules/assess.ts';
import { LimitError } from '../../shared/rules/parameters.ts';
import { createYardSubject, isYardSilent } from '../../shared/rules/probeSubject.ts';
import type { Pile, PileId, Placement, ProbeId, Yard } from '../../shared/yard/yard.ts';
import type { StoredReading } from '../series/port.ts';
import { StandingCodes } from './codes.ts';
import { addChanges, closeAlarms, type Desk, deskOf, restoreDesk, stateMarkOf } from './desk.ts';
import { FloodDesk, floodMarkOf } from './floodDesk.ts';
import type { RulesOptions, Settings } from './options.ts';
import { advancePile, createPileDesk, type PileDesk, pileStatus, setPileFacts } from './pileDesk.ts';
import { rebuildPile } from './pileHistory.ts';
import {
  advanceProbe,
  createProbeDesk,
  hearStored,
  type ProbeDesk,
  quietAt,
  setFactsOfProbe,
} from './probeDesk.ts';
import { probeOfChannel } from './probeOfChannel.ts';
import { emptyStep, gather, type Step } from './step.ts';
import { probeFactsOf, readPileFacts, readYardFacts, type YardFacts } from './yardFacts.ts';

export interface Until {
  readonly toMs: number;
  readonly nowMs: number;
  /** Readings stored up to here have been taken. */
  readonly sequence: number;
}

/** One yard at work: a desk for each open pile, each placed probe, and the yard itself. */
export class YardDesk {
  facts!: YardFacts;
  readonly piles = new Map<PileId, PileDesk>();
  readonly probes = new Map<ProbeId, ProbeDesk>();
  yard!: Desk;
  codes!: StandingCodes;
  #flood!: FloodDesk;
  readonly #options: RulesOptions;
  readonly #settings: Settings;
  readonly #changedPiles = new Set<PileId>();
  /** Desks of ended piles and revoked probes whose last step is still to be stored. */
  readonly #leaving: Desk[] = [];
  #advanceYard: (until: Until) => void = () => {};
  #isYardSilent: (atMs: number) => boolean = () => false;
  #quietCache = { atMs: Number.NaN, placed: 0, silent: 0 };

  private constructor(options: RulesOptions, settings: Settings) {
    this.#options = options;
    this.#settings = settings;
  }

  /** Opens a yard's desks from what is stored, with readings up to `sequence` in their windows. */
  static async open(options: RulesOptions, settings: Settings, yard: Yard, until: Until): Promise<YardDesk> {
    const desk = new YardDesk(options, settings);
    desk.facts = await readYardFacts(options.records, yard, until.nowMs);
    const alarms = await options.records.alarms.list(yard.id);
    desk.codes = new StandingCodes(alarms);
    desk.#flood = new FloodDesk(await options.records.marks.get(floodMarkOf(yard.id)), () => desk.desks());
    await desk.#openYard(alarms, until);
    for (const probe of desk.facts.probes.values()) await desk.#openProbe(probe.id, alarms, until);
    for (const pile of desk.facts.piles) await desk.#openPile(pile, alarms, until);
    return desk;
  }

  /** Every desk of the yard. */
  *desks(): Iterable<Desk> {
    yield this.yard;
    yield* this.probes.values();
    yield* this.piles.values();
  }

  find(subject: AlarmSubject): Desk | undefined {
    if (subject.kind === 'yard') return this.yard;
    return subject.kind === 'pile' ? this.piles.get(subject.id) : this.probes.get(subject.id);
  }

  /** Limits or journal of this pile are to be read again at the next refresh. */
  pileChanged(pileId: PileId): void {
    this.#changedPiles.add(pileId);
  }

  /** Reads the records again: new and ended piles, moved probes, people; of piles, what is said to have changed. */
  async refresh(yard: Yard, until: Until, readEveryPile: boolean): Promise<void> {
    const before = this.facts;
    this.facts = await readYardFacts(this.#options.records, yard, until.nowMs);
    const alarms = await this.#options.records.alarms.list(yard.id);
    await this.#refreshProbes(alarms, until);
    await this.#refreshPiles(before, alarms, until, readEveryPile);
    this.#changedPiles.clear();
  }

  /** Hands a stored reading to the piles and the probe it belongs to. */
  take(reading: StoredReading): void {
    for (const placement of this.facts.placementsOf.get(reading.channel) ?? [])
      if (standsAt(placement, reading.timeMs)) this.#takeFor(placement, reading);
    const probeId = probeOfChannel(reading.channel, this.probes);
    const probe = probeId === null ? undefined : this.probes.get(probeId);
    if (probe === undefined) return;
    probe.pending.push(reading);
    probe.heardMs = Math.max(probe.heardMs, reading.timeMs);
  }

  /** Lowest sequence among readings that still wait; null when none do. */
  lowestPending(): number | null {
    let lowest: number | null = null;
    for (const desk of [...this.piles.values(), ...this.probes.values()])
      for (const { sequence } of desk.pending) if (lowest === null || sequence < lowest) lowest = sequence;
    return lowest;
  }

  /** Judges everything up to an instant and gathers what is to be stored. */
  async advance(until: Until, holdTexts: boolean): Promise<Step> {
    this.#quietCache.atMs = Number.NaN;
    const step = emptyStep();
    this.#advanceYard(until);
    for (const probe of this.probes.values()) advanceProbe(probe, until.toMs, until.nowMs);
    for (const pile of this.piles.values()) {
      await advancePile(pile, this.#options.series, until);
      this.#addStatus(step, pile, until);
    }
    this.#gather(step, [...this.#leaving.splice(0), ...this.desks()], until.nowMs, holdTexts);
    return step;
  }

  /** What a person's deed on one desk has changed. */
  stepOf(desk: Desk, nowMs: number): Step {
    const step = emptyStep();
    this.#gather(step, [desk], nowMs, false);
    return step;
  }

  #gather(step: Step, desks: readonly Desk[], nowMs: number, holdTexts: boolean): void {
    const { yard, people } = this.facts;
    const context = { yard, people, settings: this.#settings, nowMs, holdTexts };
    for (const desk of desks) gather(step, desk, this.codes, context);
    this.#flood.pass(step, context);
  }

  #addStatus(step: Step, pile: PileDesk, { toMs }: Until): void {
    const isDue = toMs - pile.statusMs >= this.#settings.statusSeconds * 1000;
    if (!pile.hasNews || !isDue || !Number.isFinite(pile.standing.lastInstantMs)) return;
    step.statuses.push(pileStatus(pile));
    pile.statusMs = toMs;
    pile.hasNews = false;
  }

  #takeFor(placement: Placement, reading: StoredReading): void {
    const { timeMs, value, quality, reason, sequence } = reading;
    const sample = { placementId: placement.id, timeMs, value, quality, reason, sequence };
    if (placement.pileId !== null) this.piles.get(placement.pileId)?.pending.push(sample);
    else if (placement.position === 'air') for (const pile of this.piles.values()) pile.pending.push(sample);
  }

  /** How many probes are placed, and how many of them quiet, at an instant. */
  #quiet(atMs: number): { readonly placed: number; readonly silent: number } {
    if (this.#quietCache.atMs === atMs) return this.#quietCache;
    let [placed, silent] = [0, 0];
    for (const probe of this.probes.values()) {
      const quiet = quietAt(probe, atMs);
      placed += quiet.placed ? 1 : 0;
      silent += quiet.silent ? 1 : 0;
    }
    this.#quietCache = { atMs, placed, silent };
    return this.#quietCache;
  }

  async #openYard(alarms: readonly Alarm[], until: Until): Promise<void> {
    const { yard } = this.facts;
    const subject = createYardSubject(yard.id, yard.name, (atMs) => this.#quiet(atMs));
    this.yard = deskOf(subject, () => ({ pileId: null, name: this.facts.yard.name, place: '' }));
    await this.#restore(this.yard, alarms, until.toMs);
    this.#isYardSilent = (atMs) => isYardSilent(subject, atMs);
    this.#advanceYard = ({ toMs, nowMs }) => addChanges(this.yard, advance(subject, [], toMs, nowMs));
  }

  async #openProbe(probeId: ProbeId, alarms: readonly Alarm[], until: Until): Promise<void> {
    const facts = probeFactsOf(
      this.facts,
      this.facts.probes.get(probeId)!,
      this.#settings.defaultIntervalSeconds,
    );
    const desk = createProbeDesk(this.facts.yard.id, facts, (atMs) => this.#isYardSilent(atMs));
    const latest = await this.#options.series.latest(facts.places.map((place) => place.channel));
    hearStored(desk, latest.values());
    await this.#restore(
      desk,
      alarms,
      Number.isFinite(desk.heardMs) ? Math.min(desk.heardMs, until.toMs) : until.toMs,
    );
    this.probes.set(probeId, desk);
  }

  async #openPile(pile: Pile, alarms: readonly Alarm[], until: Until): Promise<void> {
    const read = await readPileFacts(
      this.#options.records,
      this.facts,
      pile,
      this.#settings.defaultIntervalSeconds,
    );
    const desk = this.#pileDesk(read);
    await rebuildPile(desk.pile, read.facts, this.#options.series, {
      ...until,
      beforeMs: Number.POSITIVE_INFINITY,
    });
    await this.#restore(desk, alarms, desk.pile.window.lastSampleMs);
    this.piles.set(pile.id, desk);
  }

  #pileDesk({ facts, limits }: Awaited<ReturnType<typeof readPileFacts>>): PileDesk {
    try {
      return createPileDesk(facts, limits);
    } catch (error) {
      if (!(error instanceof LimitError)) throw error;
      this.#options.logger.error(
        { pileId: facts.pile.id, reason: error.message },
        'pile judged by default limits',
      );
      return createPileDesk(facts, { version: limits.version, overrides: {} });
    }
  }

  async #restore(desk: Desk, alarms: readonly Alarm[], lastSampleMs: number): Promise<void> {
    const { kind, id } = desk.subject;
    const own = alarms.filter((alarm) => alarm.subject.kind === kind && alarm.subject.id === id);
    restoreDesk(desk, own, await this.#options.records.marks.get(stateMarkOf(desk.subject)), lastSampleMs);
  }

  async #refreshProbes(alarms: readonly Alarm[], until: Until): Promise<void> {
    for (const [id, desk] of this.probes) {
      if (this.facts.probes.has(id)) continue;
      closeAlarms(desk, until.nowMs);
      this.#leaving.push(desk);
      this.probes.delete(id);
    }
    for (const probe of this.facts.probes.values()) {
      const desk = this.probes.get(probe.id);
      if (desk === undefined) await this.#openProbe(probe.id, alarms, until);
      else setFactsOfProbe(desk, probeFactsOf(this.facts, probe, this.#settings.defaultIntervalSeconds));
    }
  }

  async #refreshPiles(
    before: YardFacts,
    alarms: readonly Alarm[],
    until: Until,
    readEvery: boolean,
  ): Promise<void> {
    const open = new Set(this.facts.piles.map((pile) => pile.id));
    for (const [id, desk] of this.piles) {
      if (open.has(id)) continue;
      closeAlarms(desk, until.nowMs);
      this.#leaving.push(desk);
      this.piles.delete(id);
    }
    const moved = movedPiles(before, this.facts);
    for (const pile of this.facts.piles) {
      const desk = this.piles.get(pile.id);
      if (desk === undefined) await this.#openPile(pile, alarms, until);
      else if (readEvery || moved.has(pile.id) || this.#changedPiles.has(pile.id))
        await this.#refreshPile(desk, pile, moved.has(pile.id), until);
    }
  }

  async #refreshPile(desk: PileDesk, pile: Pile, isMoved: boolean, until: Until): Promise<void> {
    const read = await readPileFacts(
      this.#options.records,
      this.facts,
      pile,
      this.#settings.defaultIntervalSeconds,
    );
    try {
      setPileFacts(desk, read.facts, read.limits);
    } catch (error) {
      if (!(error instanceof LimitError)) throw error;
      this.#options.logger.error({ pileId: pile.id, reason: error.message }, 'limits not taken over');
    }
    if (!isMoved) return;
    // A probe was placed or moved, perhaps in the past: the window is built again under the new placements.
    const later = await rebuildPile(desk.pile, read.facts, this.#options.series, {
      ...until,
      beforeMs: Math.max(desk.standing.lastInstantMs + 1, 0),
    });
    desk.pending = later.map((sample) => ({ ...sample, sequence: until.sequence }));
    desk.standing.lastInstantMs = Math.max(desk.standing.lastInstantMs, desk.pile.window.lastSampleMs);
  }
}

function standsAt({ fromMs, toMs }: Placement, timeMs: number): boolean {
  return fromMs <= timeMs && (toMs === null || timeMs < toMs);
}

/** Piles whose placements, or whose own start or method, are not what they were. */
function movedPiles(before: YardFacts, after: YardFacts): Set<PileId> {
  const outline = (facts: YardFacts) =>
    new Map(
      facts.piles.map((pile) => [
        pile.id,
        JSON.stringify([
          pile,
          facts.placements.filter(({ pileId }) => pileId === pile.id || pileId === null),
        ]),
      ]),
    );
  const [was, is] = [outline(before), outline(after)];
  return new Set([...is].flatMap(([id, text]) => (was.get(id) === text ? [] : [id])));
}
