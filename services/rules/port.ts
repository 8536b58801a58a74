import type { Alarm, AlarmEvent } from '../../shared/alarms/alarm.ts';

/** What other services may ask of rules. */
export interface RulesPort {
  /** New readings are stored: assess soon. Cheap; many nudges become one pass. */
  nudge(): void;
  /**
   * A person's action on an alarm (acknowledge, shelve, reset...). Stored with its transition; retried when the alarm
   * moved meanwhile. Throws RecordsError on `alarmId` when there is no such alarm, on `event` when it cannot happen now.
   */
  act(alarmId: string, event: AlarmEvent): Promise<Alarm>;
}
