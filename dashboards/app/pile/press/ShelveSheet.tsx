import { useState } from 'preact/hooks';
import type { AlarmView } from '../../../../shared/api/types.ts';
import { conditionWords } from '../../../common/words.ts';
import { Field, Form } from '../../Form.tsx';
import { text } from '../words.ts';
import { pressShelve } from './deeds.ts';
import { refuseField } from './refuseField.ts';
import { Sheet } from './Sheet.tsx';
import { pressWords } from './words.ts';

interface ShelveSheetProps {
  readonly pileId: string;
  /** More than one: which is asked first. */
  readonly alarms: readonly AlarmView[];
  readonly onClose: () => void;
}

/** By minutes, shortest first. */
const shelvingTimes = Object.entries(pressWords.minutes);

/** How long an alarm is put away, and why: shelving always ends by itself. */
export function ShelveSheet({ pileId, alarms, onClose }: ShelveSheetProps) {
  const [reason, setReason] = useState('');
  const send = async (fields: Readonly<Record<string, string>>) => {
    const alarm = alarms.find(({ id }) => id === fields.alarm) ?? alarms[0]!;
    const why = (fields.reason ?? '').trim();
    if (why.length < 3 || why.length > 500) refuseField('reason', pressWords.reasonWrong);
    void pressShelve(pileId, alarm, Number(fields.minutes), why);
    onClose();
  };
  return (
    <Sheet title={pressWords.shelveTitle} onClose={onClose}>
      <Form button={pressWords.shelveButton} onSend={send}>
        {(wrong) => (
          <>
            {alarms.length > 1 ? (
              <Field
                label={pressWords.which}
                name="alarm"
                choices={alarms.map(({ id, condition }) => [id, conditionWords[condition]] as const)}
              />
            ) : (
              <p>{conditionWords[alarms[0]!.condition]}</p>
            )}
            <Field label={pressWords.howLong} name="minutes" choices={shelvingTimes} value="240" />
            <div class="big-buttons">
              {pressWords.reasons.map((each) => (
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
              label={text.why}
              name="reason"
              hint={text.whyHint}
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
