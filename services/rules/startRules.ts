import { doDeeds } from './doDeeds.ts';
import { type RulesOptions, settingsOf } from './options.ts';
import type { RulesPort } from './port.ts';
import { readPast } from './readPast.ts';
import { Work } from './work.ts';

export interface Rules extends Required<RulesPort> {
  /** Judges everything that is due now and resolves when it is stored; for tests and orderly stops. */
  settle(): Promise<void>;
  /** Leaves off with a yard that another process is to judge. */
  leave(yardId: string): Promise<void>;
  /** People of other processes asked for something: look soon. */
  lookForDeeds(): void;
  /** How many yards are judged here. */
  yardCount(): number;
  stop(): Promise<void>;
}

/**
 * Starts judging: pulls what is stored, routes it to piles and probes, and stores alarms, texts and the place in the
 * stream it has come to in one transaction, so that a crash neither loses nor doubles anything.
 */
export async function startRules(options: RulesOptions): Promise<Rules> {
  const work = new Work(options, settingsOf(options.config));
  await work.enqueue(() => work.open());
  const deeds = doDeeds(options, work);
  const ticker = setInterval(() => {
    work.nudge();
    deeds.look();
  }, work.settings.tickMilliseconds);
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
    leave: (yardId) => work.leave(yardId),
    lookForDeeds: deeds.look,
    yardCount: () => work.yardIds().length,
    async stop() {
      clearInterval(ticker);
      await deeds.settled();
      await work.stop();
    },
  };
}
