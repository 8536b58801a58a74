import { useState } from 'preact/hooks';
import type { AlarmView } from '../../../../shared/api/types.ts';
import { conditionWords } from '../../../common/words.ts';
import { Field, Form } from '../../Form.tsx';
import { pressShelve } from './deeds.ts';
import { refuseField } from './refuseField.ts';
import { Sheet } from './Sheet.tsx';

interface ShelveSheetProps {
  readonly pileId: string;
  /** More than one: which is asked first. */
  readonly alarms: readonly AlarmView[];
  readonly onClose: () => void;
}

const shelvingHours = [
  ['60', '1 hour'],
  ['240', '4 hours'],
  ['720', '12 hours'],
  ['1440', '1 day'],
  ['4320', '3 days'],
  ['10080', '1 week'],
] as const;

/** Reasons a keeper has most often, one press each. */
const usualReasons = [
  'Working on it now',
  'Waiting for water',
  'Probe is out of the pile',
  'Known, watching it',
];

/** How long an alarm is put away, and why: shelving always ends by itself. */
export function ShelveSheet({ pileId, alarms, onClose }: ShelveSheetProps) {
  const [reason, setReason] = useState('');
  const send = async (fields: Readonly<Record<string, string>>) => {
    const alarm = alarms.find(({ id }) => id === fields.alarm) ?? alarms[0]!;
    const why = (fields.reason ?? '').trim();
    if (why.length < 3 || why.length > 500) refuseField('reason', 'Say why, in 3 to 500 letters.');
    void pressShelve(pileId, alarm, Number(fields.minutes), why);
    onClose();
  };
  return (
    <Sheet title="Shelve an alarm" onClose={onClose}>
      <Form button="Shelve it" onSend={send}>
        {(wrong) => (
          <>
            {alarms.length > 1 ? (
              <Field
                label="Which alarm"
                name="alarm"
                choices={alarms.map(({ id, condition }) => [id, conditionWords[condition]] as const)}
              />
            ) : (
              <p>{conditionWords[alarms[0]!.condition]}</p>
            )}
            <Field label="For how long" name="minutes" choices={shelvingHours} value="240" />
            <div class="big-buttons">
              {usualReasons.map((each) => (
                <button
                  key={each}
                  type="button"
                  class="quiet"
                  aria-pressed={reason === each}
                  onClick={() => setReason(each)}
                >
                  {each}
                </button>
              ))}
            </div>
            <Field
              key={reason}
              label="Why"
              name="reason"
              hint="The next person reads this."
              value={reason}
              error={wrong('reason')}
              required
            />
          </>
        )}
      </Form>
    </Sheet>
  );
}
