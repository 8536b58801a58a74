import type { Alarm } from '../../shared/alarms/alarm.ts';
import { nothingKnown } from '../../shared/rules/serviceFacts.ts';
import type { Desk } from './desk.ts';
import { type RulesOptions, settingsOf } from './options.ts';
import { YardDesk } from './yardDesk.ts';

/** A desk that was looked at is good for this long, real time: a page asks for its words several times. */
const goodForMs = 10_000;
const mostKept = 50;

type LookOptions = Pick<RulesOptions, 'records' | 'series' | 'clock' | 'config' | 'logger'>;

/** What an alarm is about, as it is stored, for processes that do not judge; undefined when it is no longer watched. */
export function createDeskLook(options: LookOptions): (alarm: Alarm) => Promise<Desk | undefined> {
  const kept = new Map<string, { readonly atMs: number; readonly desk: Promise<Desk | undefined> }>();
  const all: RulesOptions = { ...options, onCommitted: () => {}, services: () => nothingKnown };

  async function open({ yardId, subject }: Alarm): Promise<Desk | undefined> {
    const yard = await options.records.yards.get(yardId);
    if (yard === null) return undefined;
    const nowMs = options.clock.nowMs();
    const until = { toMs: nowMs, nowMs, sequence: Number.MAX_SAFE_INTEGER };
    return YardDesk.openOne(all, settingsOf(options.config), yard, subject, until);
  }

  return (alarm) => {
    const key = `${alarm.yardId} ${alarm.subject.kind} ${alarm.subject.id} ${alarm.version}`;
    const known = kept.get(key);
    if (known !== undefined && performance.now() - known.atMs < goodForMs) return known.desk;
    const desk = open(alarm);
    desk.catch(() => kept.delete(key));
    kept.delete(key);
    kept.set(key, { atMs: performance.now(), desk });
    if (kept.size > mostKept) kept.delete(kept.keys().next().value!);
    return desk;
  };
}
