import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Alarm, AlarmEvent } from '../../shared/alarms/alarm.ts';
import type { Explanation } from '../../shared/diagnosis/explain.ts';
import type { ConditionWords } from '../../shared/rules/condition.ts';
import type { TemperatureUnit, Yard, YardId } from '../../shared/yard/yard.ts';
import { DeedGone, LeaseLost, RecordsError, VersionConflict } from '../records/port.ts';
import { everything, type Share } from '../sharing/port.ts';
import { type ClockWatch, createClockWatch } from './clockWatch.ts';
import type { RulesOptions, Settings } from './options.ts';
import { commitsOf, isEmpty, liveChangesOf, type Step, settled } from './step.ts';
import { storedCursor, WatchedYard } from './watchedYard.ts';
import { type Until, YardDesk } from './yardDesk.ts';

const readingsAtOnce = 4_000;
const leastBetweenLooks = 300;
const mostTries = 5;

/** All of the service's state; everything that changes it goes through one queue, one thing at a time. */
export class Work {
  readonly settings: Settings;
  readonly #options: RulesOptions;
  readonly #share: Share;
  readonly #yards = new Map<YardId, WatchedYard>();
  /** Where the stream is read on from: as far as the yard that has taken least. */
  #taken = 0;
  #queue: Promise<unknown> = Promise.resolve();
  #isNudged = false;
  #isStopped = false;
  #factsReadAt = Number.NEGATIVE_INFINITY;
  #factsTookMs = 0;
  #mustReadFacts = false;
  #isOpen = false;
  readonly #watch: ClockWatch;

  constructor(options: RulesOptions, settings: Settings) {
    this.#options = options;
    this.#share = options.share ?? everything;
    this.#watch = createClockWatch(options.clock);
    this.settings = settings;
  }

  enqueue<T>(job: () => Promise<T>): Promise<T> {
    const done = this.#queue.then(job);
    this.#queue = done.catch(() => {});
    return done;
  }

  nudge(): void {
    if (this.#isNudged || this.#isStopped) return;
    this.#isNudged = true;
    this.enqueue(async () => {
      this.#isNudged = false;
      if (!this.#isStopped) await this.pass();
    }).catch((error: unknown) => this.#options.logger.error({ err: error }, 'judgement pass failed'));
  }

  async stop(): Promise<void> {
    this.#isStopped = true;
    await this.#queue;
  }

  factsChanged(): void {
    this.#mustReadFacts = true;
    this.nudge();
  }

  /** Yards judged here just now. */
  yardIds(): YardId[] {
    return [...this.#yards.keys()];
  }

  wordsFor(alarm: Alarm): ConditionWords | null {
    const desk = this.#yards.get(alarm.yardId)?.desk.find(alarm.subject);
    return desk?.say(alarm.condition)?.words ?? null;
  }

  explain(alarm: Alarm, unit: TemperatureUnit): Explanation | null {
    const desk = this.#yards.get(alarm.yardId)?.desk.find(alarm.subject);
    return desk?.explain(alarm.condition, unit) ?? null;
  }

  /** Goes back to what is stored: at the start, and when a step could not be stored. */
  async open(): Promise<void> {
    this.#isOpen = false;
    this.#yards.clear();
    this.#taken = 0;
    for (const yard of await this.#options.records.yards.list())
      if (this.#isOurs(yard.id)) await this.#openYard(yard);
    this.#factsReadAt = performance.now();
    this.#isOpen = true;
  }

  /** Leaves off with a yard that another process is to judge: what waits in memory is read again by that one. */
  leave(yardId: YardId): Promise<void> {
    return this.enqueue(async () => {
      this.#yards.delete(yardId);
    });
  }

  async pass(): Promise<void> {
    if (!this.#isOpen) await this.open();
    try {
      await this.#refreshFacts();
      await this.#lookAtClock();
      for (let more = true; more; ) {
        more = await this.#takeReadings();
        await this.#advanceAll(more);
      }
    } catch (error) {
      // Memory is ahead of what is stored: read it all again before going on.
      this.#isOpen = false;
      if (error instanceof LeaseLost) return this.#isLost(error);
      this.#options.logger.warn(
        { err: error },
        'step not stored: judgement starts again from what is stored',
      );
      if (!(error instanceof VersionConflict)) throw error;
      this.nudge();
    }
  }

  /** Does a person's deed; with the id of a stored one, both are done or neither. */
  async act(alarmId: string, event: AlarmEvent, deedId?: string): Promise<Alarm> {
    for (let tries = 1; ; tries += 1) {
      try {
        return await this.#tryAct(alarmId, event, deedId);
      } catch (error) {
        this.#isOpen = false;
        if (error instanceof LeaseLost) this.#isLost(error);
        if (error instanceof DeedGone || !(error instanceof VersionConflict) || tries === mostTries)
          throw error;
      }
    }
  }

  async #tryAct(alarmId: string, event: AlarmEvent, deedId: string | undefined): Promise<Alarm> {
    if (!this.#isOpen) await this.open();
    const alarm = await this.#options.records.alarms.get(alarmId);
    if (alarm === null) throw new RecordsError('alarmId', `there is no alarm ${alarmId}`);
    const yard = this.#yards.get(alarm.yardId);
    const desk = yard?.desk.find(alarm.subject);
    if (yard === undefined || desk === undefined)
      throw new RecordsError('event', 'what this alarm is about is no longer watched');
    const held = desk.stored.get(alarm.condition);
    if (held?.version !== alarm.version) throw new VersionConflict(`alarm ${alarmId} moved`);
    const refused = desk.act(alarm.condition, event);
    if (refused !== null) throw new RecordsError('event', refused);
    await this.#commit(yard, yard.desk.stepOf(desk, this.#until(yard).nowMs), [], deedId);
    return desk.stored.get(alarm.condition) ?? alarm;
  }

  async #refreshFacts(): Promise<void> {
    const startedAt = performance.now();
    // A large yard takes a while to read: at most a small share of the time goes into looking for what nobody told.
    const waitMs = Math.max(this.settings.factsMilliseconds, this.#factsTookMs * leastBetweenLooks);
    if (startedAt - this.#factsReadAt < waitMs && !this.#mustReadFacts && !this.#isShareChanged()) return;
    this.#mustReadFacts = false;
    for (const yard of await this.#options.records.yards.list()) {
      const watched = this.#yards.get(yard.id);
      if (!this.#isOurs(yard.id)) this.#yards.delete(yard.id);
      else if (watched === undefined || watched.grant !== this.#grantOf(yard.id)) await this.#openYard(yard);
      else await watched.desk.refresh(yard, this.#until(watched));
    }
    this.#factsReadAt = performance.now();
    this.#factsTookMs = this.#factsReadAt - startedAt;
  }

  /** Opens a yard's desks from what is stored, at its own place in the stream. */
  async #openYard(yard: Yard): Promise<void> {
    const grant = this.#grantOf(yard.id);
    const stored = await storedCursor(this.#options.records.marks, yard.id);
    const cursor = stored ?? this.#taken;
    const until = { ...this.#now(), sequence: cursor };
    const desk = await YardDesk.open(this.#options, this.settings, yard, until);
    const watched = new WatchedYard(desk, cursor, stored !== null, grant);
    await watched.resumeListening(this.#options.records, until);
    this.#taken = this.#yards.size === 0 ? cursor : Math.min(this.#taken, cursor);
    this.#yards.set(yard.id, watched);
  }

  /** Clocks are set, machines sleep: what that means for judgement is in the README. */
  async #lookAtClock(): Promise<void> {
    const news = this.#watch.look();
    const { nowMs } = this.#now();
    if (news !== 'ran-on') this.#options.logger.warn({ nowMs, news }, 'the clock was moved');
    for (const yard of this.#yards.values()) {
      if (news === 'went-back') await yard.desk.turnBack(this.#until(yard));
      if (news === 'leapt-ahead') await yard.listenFrom(this.#options.records, nowMs);
      await yard.noteAlive(this.#options.records, nowMs);
    }
  }

  /** Takes the next readings; true when there are more. */
  async #takeReadings(): Promise<boolean> {
    if (this.#yards.size === 0) return false;
    const readings = await this.#options.series.since(this.#taken, readingsAtOnce);
    for (const yard of this.#yards.values()) yard.take(readings);
    this.#taken = readings.at(-1)?.sequence ?? this.#taken;
    return readings.length === readingsAtOnce;
  }

  /** While more is coming, time goes only as far as the readings have: else a backlog would look like silence. */
  async #advanceAll(isMoreComing: boolean): Promise<void> {
    for (const yard of [...this.#yards.values()]) {
      // Where the stream runs again for another yard, this one is not behind.
      const isBehind = isMoreComing && yard.taken <= this.#taken;
      const until = this.#until(yard);
      const newestMs = yard.newestMs - this.settings.settleSeconds * 1000;
      const toMs = isBehind ? Math.min(until.toMs, newestMs) : until.toMs;
      // What people set by the clock waits as well: what stands half way through a backlog may be over at its end.
      const nowMs = isBehind ? Math.min(until.nowMs, toMs) : until.nowMs;
      const step = await yard.desk.advance({ ...until, toMs, nowMs }, isBehind);
      if (!isEmpty(step)) await this.#commit(yard, step, yard.cursorMarks());
    }
  }

  async #commit(
    yard: WatchedYard,
    step: Step,
    marks: readonly (readonly [string, string])[],
    deedId?: string,
  ): Promise<void> {
    if (isEmpty(step) && deedId === undefined) return;
    for (const [index, part] of commitsOf(step, marks).entries()) {
      if (index > 0) await nextTurn();
      const isFirst = index === 0 && deedId !== undefined;
      await yard.commit(this.#options.records, isFirst ? { ...part, deedId } : part);
    }
    settled(step);
    this.#options.onCommitted(liveChangesOf(step), step.messages.length);
  }

  #isLost({ leaseName }: LeaseLost): void {
    const lost = [...this.#yards.values()].filter(({ grant }) => grant?.name === leaseName);
    for (const { id, grant } of lost) if (this.#grantOf(id) === grant) this.#share.lost(id);
    this.nudge();
  }

  #isOurs(yardId: YardId): boolean {
    return this.#share.has(yardId);
  }

  #grantOf(yardId: YardId) {
    return this.#share.grantOf(yardId);
  }

  /** A yard has come to us, or gone, since the records were read. */
  #isShareChanged(): boolean {
    const held = this.#share.held();
    return (
      held.some((id) => this.#yards.get(id)?.grant !== this.#grantOf(id)) ||
      this.yardIds().some((id) => !this.#isOurs(id))
    );
  }

  #now(): Omit<Until, 'sequence'> {
    const nowMs = this.#options.clock.nowMs();
    return { toMs: nowMs - this.settings.settleSeconds * 1000, nowMs };
  }

  #until({ taken }: WatchedYard): Until {
    return { ...this.#now(), sequence: taken };
  }
}
