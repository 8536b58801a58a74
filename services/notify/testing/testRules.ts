import type { Alarm } from '../../../shared/alarms/alarm.ts';
import { transition } from '../../../shared/alarms/lifecycle.ts';
import { type Records, RecordsError } from '../../records/port.ts';
import type { RulesPort } from '../../rules/port.ts';

const options = { latching: false, returnNeedsAcknowledging: true, sameOccurrenceMinutes: 10 };

/** Rules that judge nothing and apply people's actions by the real table to the real records. */
export function testRules(records: Records): RulesPort {
  return {
    nudge() {},
    async act(alarmId, event): Promise<Alarm> {
      const alarm = await records.alarms.get(alarmId);
      if (alarm === null) throw new RecordsError('alarmId', `there is no alarm ${alarmId}`);
      const result = transition(alarm, event, { options });
      if ('refused' in result) throw new RecordsError('event', result.refused);
      if (result.transition === null) return alarm;
      const rest = { messages: [], statuses: [], marks: [] };
      await records.alarms.commit({ alarms: [result.alarm], transitions: [result.transition], ...rest });
      return result.alarm;
    },
  };
}
