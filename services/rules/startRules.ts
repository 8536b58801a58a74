import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Alarm, AlarmEvent } from '../../shared/alarms/alarm.ts';
import type { Explanation } from '../../shared/diagnosis/explain.ts';
import type { ConditionWords } from '../../shared/rules/condition.ts';
import type { TemperatureUnit, YardId } from '../../shared/yard/yard.ts';
import { RecordsError, VersionConflict } from '../records/port.ts';
import { type ClockWatch, createClockWatch, wasAway } from './clockWatch.ts';
import { type RulesOptions, type Settings, settingsOf } from './options.ts';
import type { RulesPort } from './port.ts';
import { readPast } from './readPast.ts';
import { commitsOf, isEmpty, liveChangesOf, type Step, settled } from './step.ts';
import { type Until, YardDesk } from './yardDesk.ts';

const cursorMark = 'rules:cursor';
/** When the rules were last at work, and since when they have been without a long break. */
const aliveMark = 'rules:alive';
const listeningMark = 'rules:listening';
const aliveEveryMs = 60_000;
const readingsAtOnce = 4_000;
const leastBetweenLooks = 300;
const mostTries = 5;

export interface Rules extends Required<RulesPort> {
  /** Judges everything that is due now and resolves when it is stored; for tests and orderly stops. */
  settle(): Promise<void>;
  stop(): Promise<void>;
}

/**
 * Starts judging: pulls what is stored, routes it to piles and probes, and stores alarms, texts and the place in the
 * stream it has come to in one transaction, so that a crash neither loses nor doubles anything.
 */
export async function startRules(options: RulesOptions): Promise<Rules> {
  const work = new Work(options, settingsOf(options.config));
  await work.enqueue(() => work.open());
  const ticker = setInterval(() => work.nudge(), work.settings.tickMilliseconds);
  work.nudge();
  return {
    nudge: () => work.nudge(),
    act: (alarmId, event) => work.enqueue(() => work.act(alarmId, event)),
    factsChanged: () => work.factsChanged(),
    wordsFor: async (alarm) => work.wordsFor(alarm),
    explain: async (alarm, unit) => work.explain(alarm, unit),
    readPast: (pileId, span) =>
      readPast({ ...options, ...work.settings, nowMs: options.clock.nowMs() }, pileId, span),
    settle: () => work.enqueue(() => work.pass()),
    async stop() {
      clearInterval(ticker);
      await work.stop();
    },
  };
}

/** All of the service's state; everything that changes it goes through one queue, one thing at a time. */
class Work {
  readonly settings: Settings;
  readonly #options: RulesOptions;
  readonly #yards = new Map<YardId, YardDesk>();
  /** Last sequence taken from the store, and last one written to the mark. */
  #taken = 0;
  #newestMs = Number.NEGATIVE_INFINITY;
  #stored = 0;
  #queue: Promise<unknown> = Promise.resolve();
  #isNudged = false;
  #isStopped = false;
  #factsReadAt = Number.NEGATIVE_INFINITY;
  #factsTookMs = 0;
  #mustReadFacts = false;
  #isOpen = false;
  #aliveMs = 0;
  readonly #watch: ClockWatch;

  constructor(options: RulesOptions, settings: Settings) {
    this.#options = options;
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

  wordsFor(alarm: Alarm): ConditionWords | null {
    const desk = this.#yards.get(alarm.yardId)?.find(alarm.subject);
    return desk?.say(alarm.condition)?.words ?? null;
  }

  explain(alarm: Alarm, unit: TemperatureUnit): Explanation | null {
    const desk = this.#yards.get(alarm.yardId)?.find(alarm.subject);
    return desk?.explain(alarm.condition, unit) ?? null;
  }

  /** Goes back to what is stored: at the start, and when a step could not be stored. */
  async open(): Promise<void> {
    const { records } = this.#options;
    this.#isOpen = false;
    this.#stored = Number((await records.marks.get(cursorMark)) ?? 0);
    this.#taken = this.#stored;
    this.#yards.clear();
    for (const yard of await records.yards.list())
      this.#yards.set(yard.id, await YardDesk.open(this.#options, this.settings, yard, this.#until()));
    this.#factsReadAt = performance.now();
    await this.#resumeListening();
    this.#isOpen = true;
  }

  /** After a long break silence counts from now, also after the next restart. */
  async #resumeListening(): Promise<void> {
    const { marks } = this.#options.records;
    const until = this.#until();
    const [alive, since] = [await marks.get(aliveMark), await marks.get(listeningMark)];
    const isBack = wasAway(alive === null ? null : Number(alive), until.nowMs);
    if (isBack) await marks.set(listeningMark, String(until.nowMs));
    const sinceMs = isBack ? until.nowMs : Number(since ?? 0);
    for (const yard of this.#yards.values()) {
      await yard.turnBack(until);
      if (sinceMs <= until.nowMs) yard.doubtSilence(sinceMs);
    }
    this.#aliveMs = Number(alive ?? 0);
  }

  /** Clocks are set, machines sleep: what that means for judgement is in the README. */
  async #lookAtClock(): Promise<void> {
    const news = this.#watch.look();
    const until = this.#until();
    if (news !== 'ran-on') this.#options.logger.warn({ nowMs: until.nowMs, news }, 'the clock was moved');
    if (news === 'went-back') for (const yard of this.#yards.values()) await yard.turnBack(until);
    if (news === 'leapt-ahead') {
      await this.#options.records.marks.set(listeningMark, String(until.nowMs));
      for (const yard of this.#yards.values()) yard.doubtSilence(until.nowMs);
    }
    if (Math.abs(until.nowMs - this.#aliveMs) < aliveEveryMs) return;
    this.#aliveMs = until.nowMs;
    await this.#options.records.marks.set(aliveMark, String(until.nowMs));
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
      this.#options.logger.warn(
        { err: error },
        'step not stored: judgement starts again from what is stored',
      );
      this.#isOpen = false;
      if (!(error instanceof VersionConflict)) throw error;
      this.nudge();
    }
  }

  async act(alarmId: string, event: AlarmEvent): Promise<Alarm> {
    for (let tries = 1; ; tries += 1) {
      try {
        return await this.#tryAct(alarmId, event);
      } catch (error) {
        this.#isOpen = false;
        if (!(error instanceof VersionConflict) || tries === mostTries) throw error;
      }
    }
  }

  async #tryAct(alarmId: string, event: AlarmEvent): Promise<Alarm> {
    if (!this.#isOpen) await this.open();
    const alarm = await this.#options.records.alarms.get(alarmId);
    if (alarm === null) throw new RecordsError('alarmId', `there is no alarm ${alarmId}`);
    const yard = this.#yards.get(alarm.yardId);
    const desk = yard?.find(alarm.subject);
    if (yard === undefined || desk === undefined)
      throw new RecordsError('event', 'what this alarm is about is no longer watched');
    const held = desk.stored.get(alarm.condition);
    if (held?.version !== alarm.version) throw new VersionConflict(`alarm ${alarmId} moved`);
    const refused = desk.act(alarm.condition, event);
    if (refused !== null) throw new RecordsError('event', refused);
    await this.#commit(yard.stepOf(desk, this.#until().nowMs), []);
    return desk.stored.get(alarm.condition) ?? alarm;
  }

  async #refreshFacts(): Promise<void> {
    const startedAt = performance.now();
    // A large yard takes a while to read: at most a small share of the time goes into looking for what nobody told.
    const waitMs = Math.max(this.settings.factsMilliseconds, this.#factsTookMs * leastBetweenLooks);
    if (startedAt - this.#factsReadAt < waitMs && !this.#mustReadFacts) return;
    this.#mustReadFacts = false;
    for (const yard of await this.#options.records.yards.list()) {
      const desk = this.#yards.get(yard.id);
      if (desk === undefined)
        this.#yards.set(yard.id, await YardDesk.open(this.#options, this.settings, yard, this.#until()));
      else await desk.refresh(yard, this.#until());
    }
    this.#factsReadAt = performance.now();
    this.#factsTookMs = this.#factsReadAt - startedAt;
  }

  /** Takes the next readings; true when there are more. */
  async #takeReadings(): Promise<boolean> {
    const readings = await this.#options.series.since(this.#taken, readingsAtOnce);
    for (const reading of readings) for (const yard of this.#yards.values()) yard.take(reading);
    for (const { timeMs } of readings) this.#newestMs = Math.max(this.#newestMs, timeMs);
    this.#taken = readings.at(-1)?.sequence ?? this.#taken;
    return readings.length === readingsAtOnce;
  }

  /** While more is coming, time goes only as far as the readings have: else a backlog would look like silence. */
  async #advanceAll(isMoreComing: boolean): Promise<void> {
    const until = this.#until();
    const newestMs = this.#newestMs - this.settings.settleSeconds * 1000;
    const toMs = isMoreComing ? Math.min(until.toMs, newestMs) : until.toMs;
    // What people set by the clock waits as well: what stands half way through a backlog may be over at its end.
    const nowMs = isMoreComing ? Math.min(until.nowMs, toMs) : until.nowMs;
    for (const yard of this.#yards.values()) {
      const step = await yard.advance({ ...until, toMs, nowMs }, isMoreComing);
      if (!isEmpty(step)) await this.#commit(step, this.#cursorMarks());
    }
  }

  async #commit(step: Step, marks: readonly (readonly [string, string])[]): Promise<void> {
    if (isEmpty(step)) return;
    for (const [index, part] of commitsOf(step, marks).entries()) {
      if (index > 0) await nextTurn();
      await this.#options.records.alarms.commit(part);
    }
    settled(step);
    this.#options.onCommitted(liveChangesOf(step), step.messages.length);
  }

  /** The cursor stands before the first reading that still waits in memory: a restart takes it again. */
  #cursorMarks(): [string, string][] {
    const waiting = [...this.#yards.values()].flatMap((yard) => yard.lowestPending() ?? []);
    const cursor = waiting.length === 0 ? this.#taken : Math.min(...waiting) - 1;
    if (cursor === this.#stored) return [];
    this.#stored = cursor;
    return [[cursorMark, String(cursor)]];
  }

  #until(): Until {
    const nowMs = this.#options.clock.nowMs();
    return { toMs: nowMs - this.settings.settleSeconds * 1000, nowMs, sequence: this.#taken };
  }
}
