import type { AlarmSubject } from '../../shared/alarms/alarm.ts';
import { advance } from '../../shared/rules/assess.ts';
import { LimitError } from '../../shared/rules/parameters.ts';
import type { PileLimits } from '../../shared/rules/pileSubject.ts';
import { createYardAir, type PileFacts } from '../../shared/rules/pileWindow.ts';
import { createYardSubject, isYardSilent } from '../../shared/rules/probeSubject.ts';
import type { ProbeFacts } from '../../shared/rules/probeWindow.ts';
import { isActiveOn } from '../../shared/rules/subject.ts';
import { emptyGrid } from '../../shared/rules/timeGrid.ts';
import type { Pile, PileId, Placement, ProbeId, Yard } from '../../shared/yard/yard.ts';
import type { Probe } from '../records/port.ts';
import type { StoredReading } from '../series/port.ts';
import { createBreather, forEachAtOnce } from './breather.ts';
import { StandingCodes } from './codes.ts';
import { addChanges, closeAlarms, type Desk, deskOf, restoreDesk } from './desk.ts';
import { FloodDesk, floodMarkOf } from './floodDesk.ts';
import { isSameList } from './keepEqual.ts';
import type { RulesOptions, Settings } from './options.ts';
import {
  advancePile,
  createPileDesk,
  findHands,
  handsMarkOf,
  keepWaiting,
  type PileDesk,
  pileMilestones,
  pileStatus,
  restoreHands,
  setPileFacts,
  takenHands,
} from './pileDesk.ts';
import { type AirHistory, createAirHistory, rebuildPile } from './pileHistory.ts';
import {
  advanceProbe,
  createProbeDesk,
  hear,
  hearStored,
  isFromFuture,
  lastReadings,
  type ProbeDesk,
  quietAt,
  setFactsOfProbe,
} from './probeDesk.ts';
import { probeOfChannel } from './probeOfChannel.ts';
import { emptyStep, gather, type Step } from './step.ts';
import { readStandings, type StoredStandings } from './storedStandings.ts';
import type { TextContext } from './texts.ts';
import { doubtSilence, isAhead, turnBack, turnBackPile, turnBackProbe } from './turnBack.ts';
import {
  differenceOf,
  isProbeChanged,
  pileFactsOf,
  pileLimitsOf,
  probeFactsOf,
  readYardFacts,
  type YardFacts,
  yardAir,
} from './yardFacts.ts';

/** Probes whose last readings are asked for in one go, and piles whose past is read at a time. */
const probesAtOnce = 500;
const pilesAtOnce = 16;

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
  #yardSubject!: ReturnType<typeof createYardSubject>;
  #flood!: FloodDesk;
  readonly #air = createYardAir();
  readonly #options: RulesOptions;
  readonly #settings: Settings;
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
    const { records } = options;
    desk.facts = await readYardFacts(records, yard, until.nowMs);
    const stored = await readStandings(records, yard.id);
    desk.codes = new StandingCodes(stored.alarms);
    desk.#flood = new FloodDesk(await records.marks.get(floodMarkOf(yard.id)), () => desk.desks());
    desk.#openYard(stored, until);
    await desk.#openProbes([...desk.facts.probes.values()], stored, until);
    await desk.#openPiles(desk.facts.piles, stored, until);
    return desk;
  }

  /** Only what one alarm is about, to be looked at and not judged: cheap even in a yard of ten thousand piles. */
  static async openOne(
    options: RulesOptions,
    settings: Settings,
    yard: Yard,
    subject: AlarmSubject,
    until: Until,
  ): Promise<Desk | undefined> {
    const desk = new YardDesk(options, settings);
    desk.facts = await readYardFacts(options.records, yard, until.nowMs);
    const stored = await readStandings(options.records, yard.id);
    desk.#openYard(stored, until);
    const probes = [...desk.facts.probes.values()];
    const wanted = subject.kind === 'yard' ? probes : probes.filter(({ id }) => id === subject.id);
    await desk.#openProbes(wanted, stored, until);
    const pile = desk.facts.pilesById.get(subject.id);
    if (pile !== undefined) await desk.#openPiles([pile], stored, until);
    return desk.find(subject);
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

  /** Reads the records again: new and ended piles, moved probes, people, limits, journals. */
  async refresh(yard: Yard, until: Until): Promise<void> {
    const before = this.facts;
    this.facts = await readYardFacts(this.#options.records, yard, until.nowMs, before);
    // Every pile is built again behind other air sensors: what the old ones said must not stay.
    if (!isSameList(yardAir(before), yardAir(this.facts))) emptyGrid(this.#air);
    const newProbes = [...this.facts.probes.values()].filter(({ id }) => !this.probes.has(id));
    const newPiles = this.facts.piles.filter(({ id }) => !this.piles.has(id));
    this.#refreshProbes(before, until);
    await this.#refreshPiles(before, until);
    if (newProbes.length + newPiles.length === 0) return;
    const stored = await readStandings(this.#options.records, yard.id);
    await this.#openProbes(newProbes, stored, until);
    await this.#openPiles(newPiles, stored, until);
  }

  /** Hands a stored reading to the piles and the probe it belongs to. */
  take(reading: StoredReading): void {
    const placements = isFromFuture(reading) ? [] : this.facts.placementsOf.get(reading.channel);
    for (const placement of placements ?? [])
      if (standsAt(placement, reading.timeMs)) this.#takeFor(placement, reading);
    const probeId = probeOfChannel(reading.channel, this.probes);
    const probe = probeId === null ? undefined : this.probes.get(probeId);
    if (probe === undefined) return;
    hear(probe, reading, this.#options.clock.nowMs());
  }

  /** Lowest sequence among readings that still wait; null when none do. */
  lowestPending(): number | null {
    let lowest: number | null = null;
    for (const desks of [this.piles, this.probes])
      for (const { pending } of desks.values())
        for (const { sequence } of pending)
          if (sequence !== null && (lowest === null || sequence < lowest)) lowest = sequence;
    return lowest;
  }

  /** Judges everything up to an instant and gathers what is to be stored. */
  async advance(until: Until, holdTexts: boolean): Promise<Step> {
    this.#quietCache.atMs = Number.NaN;
    const step = emptyStep(this.facts.yard.id);
    const breather = createBreather();
    this.#advanceYard(until);
    for (const probe of this.probes.values()) {
      if (probe.pending.length > 0 || probe.nextTickMs() <= until.toMs)
        advanceProbe(probe, until.toMs, until.nowMs);
      if (breather.isDue()) await breather.rest();
    }
    for (const pile of this.piles.values()) {
      if (pile.pending.length > 0 || pile.nextTickMs() <= until.toMs)
        await advancePile(pile, this.#options.series, until);
      this.#addPile(step, pile, until, holdTexts);
      if (breather.isDue()) await breather.rest();
    }
    this.#gather(step, [...this.#leaving.splice(0), ...this.desks()], until.nowMs, holdTexts);
    return step;
  }

  /** Nobody listened up to a time: who was not known as silent is given the benefit of the doubt. */
  doubtSilence(sinceMs: number): void {
    if (isActiveOn(this.yard.standing, 'probe-silent')) return;
    for (const probe of this.probes.values())
      if (!isActiveOn(probe.standing, 'probe-silent')) doubtSilence(probe, sinceMs);
  }

  /** The clock went back: what stands ahead of it is judged again from now. */
  async turnBack(until: Until): Promise<void> {
    if (isAhead(this.#yardSubject, until.toMs)) turnBack(this.#yardSubject, until);
    for (const probe of this.probes.values())
      if (isAhead(probe.standing, until.toMs) || probe.heardMs > until.nowMs) turnBackProbe(probe, until);
    for (const pile of this.piles.values())
      if (isAhead(pile.standing, until.toMs)) await turnBackPile(pile, this.#options.series, until);
  }

  /** What a person's deed on one desk has changed. */
  stepOf(desk: Desk, nowMs: number): Step {
    const step = emptyStep(this.facts.yard.id);
    this.#gather(step, [desk], nowMs, false);
    return step;
  }

  #gather(step: Step, desks: readonly Desk[], nowMs: number, holdTexts: boolean): void {
    const context = this.#textContext(nowMs, holdTexts);
    for (const desk of desks) gather(step, desk, this.codes, context);
    this.#flood.pass(step, context);
  }

  #textContext(nowMs: number, holdTexts: boolean): TextContext {
    const { yard, people, ways, duty, wordings } = this.facts;
    return { yard, people, ways, duty, wordings, settings: this.#settings, nowMs, holdTexts };
  }

  #addPile(step: Step, pile: PileDesk, { toMs, nowMs }: Until, holdTexts: boolean): void {
    if (pile.handsNew) step.marks.push([handsMarkOf(pile.subject.id), JSON.stringify([...pile.handsTaken])]);
    pile.handsNew = false;
    const isDue = toMs - pile.statusMs >= this.#settings.statusSeconds * 1000;
    if (!pile.hasNews || !isDue || !Number.isFinite(pile.standing.lastInstantMs)) return;
    step.statuses.push(pileStatus(pile));
    pile.statusMs = toMs;
    pile.hasNews = false;
    const { journal, messages } = pileMilestones(pile, this.#textContext(nowMs, holdTexts));
    step.journal.push(...journal);
    step.messages.push(...messages);
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

  #openYard(stored: StoredStandings, until: Until): void {
    const { yard } = this.facts;
    const subject = createYardSubject(
      yard.id,
      yard.name,
      (atMs) => this.#quiet(atMs),
      this.#options.services,
    );
    this.#yardSubject = subject;
    this.yard = deskOf(subject, () => ({ pileId: null, name: this.facts.yard.name, place: '' }));
    this.#restore(this.yard, stored, until.toMs);
    this.#isYardSilent = (atMs) => isYardSilent(subject, atMs);
    this.#advanceYard = ({ toMs, nowMs }) => addChanges(this.yard, advance(subject, [], toMs, nowMs));
  }

  async #openProbes(probes: readonly Probe[], stored: StoredStandings, until: Until): Promise<void> {
    for (let at = 0; at < probes.length; at += probesAtOnce) {
      const facts = probes.slice(at, at + probesAtOnce).map((probe) => this.#probeFacts(probe));
      const channels = facts.flatMap(({ places }) => places.map(({ channel }) => channel));
      const { series } = this.#options;
      const latest = await series.latest([...new Set(channels)]);
      const readings = await lastReadings(series, [...latest.values()], until.sequence);
      const heard = Map.groupBy(readings, ({ channel }) => channel);
      for (const one of facts) this.#openProbe(one, heard, stored, until);
    }
  }

  #openProbe(
    facts: ProbeFacts,
    heard: ReadonlyMap<string, readonly StoredReading[]>,
    stored: StoredStandings,
    { toMs }: Until,
  ): void {
    const desk = createProbeDesk(this.facts.yard.id, facts, (atMs) => this.#isYardSilent(atMs));
    const channels = new Set(facts.places.map(({ channel }) => channel));
    hearStored(
      desk,
      [...channels].flatMap((channel) => heard.get(channel) ?? []),
    );
    this.#restore(desk, stored, Number.isFinite(desk.heardMs) ? Math.min(desk.heardMs, toMs) : toMs);
    this.probes.set(facts.probeId, desk);
  }

  #probeFacts(probe: Probe): ProbeFacts {
    return probeFactsOf(this.facts, probe, this.#settings.defaultIntervalSeconds);
  }

  async #openPiles(piles: readonly Pile[], stored: StoredStandings, until: Until): Promise<void> {
    const { records, series } = this.#options;
    const hands = piles.length === 0 ? new Map() : await records.marks.withPrefix(handsMarkOf(''));
    const air = createAirHistory(series, until.sequence);
    await forEachAtOnce(piles, pilesAtOnce, (pile) =>
      this.#openPile(pile, stored, hands.get(handsMarkOf(pile.id)) ?? null, { ...until, air }),
    );
  }

  async #openPile(
    pile: Pile,
    stored: StoredStandings,
    hands: string | null,
    until: Until & { readonly air: AirHistory },
  ): Promise<void> {
    const facts = pileFactsOf(this.facts, pile, this.#settings.defaultIntervalSeconds);
    const desk = this.#pileDesk(facts, pileLimitsOf(this.facts, pile.id));
    restoreHands(desk, hands, until.toMs);
    const beforeMs = until.toMs + 1;
    const rebuilt = { ...until, beforeMs, hands: takenHands(desk) };
    const later = await rebuildPile(desk.pile, facts, this.#options.series, rebuilt);
    this.#restore(desk, stored, desk.pile.window.lastSampleMs);
    keepWaiting(desk, later, until.toMs);
    findHands(desk);
    this.piles.set(pile.id, desk);
  }

  #pileDesk(facts: PileFacts, limits: PileLimits): PileDesk {
    try {
      return createPileDesk(facts, limits, this.#air);
    } catch (error) {
      if (!(error instanceof LimitError)) throw error;
      this.#options.logger.error(
        { pileId: facts.pile.id, reason: error.message },
        'pile judged by default limits',
      );
      return createPileDesk(facts, { version: limits.version, overrides: {} }, this.#air);
    }
  }

  #restore(desk: Desk, stored: StoredStandings, lastSampleMs: number): void {
    restoreDesk(desk, stored.alarmsOf(desk.subject), stored.stateOf(desk.subject), lastSampleMs);
  }

  #refreshProbes(before: YardFacts, until: Until): void {
    for (const [id, desk] of this.probes) {
      const probe = this.facts.probes.get(id);
      if (probe === undefined) {
        closeAlarms(desk, until.nowMs);
        this.#leaving.push(desk);
        this.probes.delete(id);
      } else if (isProbeChanged(before, this.facts, id)) setFactsOfProbe(desk, this.#probeFacts(probe));
    }
  }

  async #refreshPiles(before: YardFacts, until: Until): Promise<void> {
    for (const [id, desk] of this.piles) {
      const pile = this.facts.pilesById.get(id);
      if (pile === undefined) {
        closeAlarms(desk, until.nowMs);
        this.#leaving.push(desk);
        this.piles.delete(id);
        continue;
      }
      const difference = differenceOf(before, this.facts, pile);
      if (difference !== null) await this.#refreshPile(desk, pile, difference === 'moved', until);
    }
  }

  async #refreshPile(desk: PileDesk, pile: Pile, isMoved: boolean, until: Until): Promise<void> {
    const facts = pileFactsOf(this.facts, pile, this.#settings.defaultIntervalSeconds);
    try {
      setPileFacts(desk, facts, pileLimitsOf(this.facts, pile.id));
    } catch (error) {
      if (!(error instanceof LimitError)) throw error;
      this.#options.logger.error({ pileId: pile.id, reason: error.message }, 'limits not taken over');
    }
    // A probe was placed or moved, perhaps in the past: the window is built again under the new placements.
    if (isMoved) await this.#rebuild(desk, facts, until);
    findHands(desk);
  }

  async #rebuild(desk: PileDesk, facts: PileFacts, until: Until): Promise<void> {
    const later = await rebuildPile(desk.pile, facts, this.#options.series, {
      ...until,
      beforeMs: Math.max(desk.standing.lastInstantMs + 1, 0),
      hands: takenHands(desk, facts),
    });
    desk.pending = later.map((sample) => ({ ...sample, sequence: until.sequence }));
    desk.standing.lastInstantMs = Math.max(desk.standing.lastInstantMs, desk.pile.window.lastSampleMs);
  }
}

function standsAt({ fromMs, toMs }: Placement, timeMs: number): boolean {
  return fromMs <= timeMs && (toMs === null || timeMs < toMs);
}
