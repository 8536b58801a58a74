import type { Alarm } from '../../shared/alarms/alarm.ts';
import { freeCode } from '../../shared/alarms/code.ts';

/** Short codes in use in a yard: one for every alarm that is not normal. */
export class StandingCodes {
  readonly #codes = new Map<string, string>();

  /** Learns from the stored rows which codes are taken. */
  constructor(alarms: Iterable<Alarm>) {
    for (const alarm of alarms) if (alarm.state !== 'normal') this.#codes.set(alarm.id, alarm.code);
  }

  /** The alarm with its code: kept while it stands, a free one when it comes up, given back when it is normal. */
  withCode(alarm: Alarm): Alarm {
    if (alarm.state === 'normal') {
      this.#codes.delete(alarm.id);
      return alarm;
    }
    const held = this.#codes.get(alarm.id);
    const code = held ?? freeCode(new Set(this.#codes.values()), alarm.id);
    this.#codes.set(alarm.id, code);
    return code === alarm.code ? alarm : { ...alarm, code };
  }
}
