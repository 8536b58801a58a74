import type { Alarm, AlarmEvent } from '../../../shared/alarms/alarm.ts';
import { transition } from '../../../shared/alarms/lifecycle.ts';
import { type Records, RecordsError } from '../../records/port.ts';
import type { RulesPort } from '../../rules/port.ts';

export interface TestRules extends RulesPort {
  nudges: number;
  readonly events: AlarmEvent[];
}

const options = { latching: false, returnNeedsAcknowledging: true, sameOccurrenceMinutes: 10 };

/** Rules that judge nothing but apply people's actions by the real table to the real records. */
export function createTestRules(records: Records): TestRules {
  const rules: TestRules = {
    nudges: 0,
    events: [],
    nudge() {
      rules.nudges += 1;
    },
    async act(alarmId, event): Promise<Alarm> {
      rules.events.push(event);
      const alarm = await records.alarms.get(alarmId);
      if (alarm === null) throw new RecordsError('alarmId', `there is no alarm ${alarmId}`);
      const result = transition(alarm, event, { options });
      if ('refused' in result) throw new RecordsError('event', result.refused);
      const transitions = result.transition === null ? [] : [result.transition];
      if (transitions.length > 0) {
        const none = { messages: [], statuses: [], marks: [] };
        await records.alarms.commit({ alarms: [result.alarm], transitions, ...none });
      }
      return result.alarm;
    },
  };
  return rules;
}
