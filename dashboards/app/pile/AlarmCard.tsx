import { useState } from 'preact/hooks';
import type { AlarmAction, AlarmView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { Flag } from '../../common/Flag.tsx';
import { dayAndTime, display, duration, temperature, temperatureChange } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { alarmStateWords, conditionWords, measures, priorityWords, words } from '../../common/words.ts';
import { Field, Form } from '../Form.tsx';
import { failureText } from '../session.ts';
import { Explained } from './Explained.tsx';
import { pressSeen } from './press/deeds.ts';
import { ShelveSheet } from './press/ShelveSheet.tsx';
import { isPressed } from './press/ThumbBar.tsx';
import { actionWords, text } from './words.ts';

interface AlarmCardProps {
  readonly pileId: string;
  readonly alarm: AlarmView;
  readonly onDone: () => Promise<void>;
}

const hiddenStates: readonly string[] = ['suppressed', 'shelved', 'out-of-service'];

/** One alarm: what, since when, why it is on, what to do first, what to mind, and the buttons. */
export function AlarmCard({ pileId, alarm, onDone }: AlarmCardProps) {
  const [asking, setAsking] = useState<'shelve' | 'take-out-of-service' | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const act = async (action: AlarmAction, body?: unknown) => {
    await api.post(`/api/alarms/${encodeURIComponent(alarm.id)}/${action}`, body);
    setAsking(null);
    await onDone();
  };
  const press = (action: AlarmAction) => {
    setFailure(null);
    if (action === 'acknowledge') void pressSeen(pileId, alarm);
    else if (action === 'shelve' || action === 'take-out-of-service') setAsking(action);
    else act(action).catch((error) => setFailure(failureText(error)));
  };
  // What hides it says what to do; said twice, it would only be longer.
  const isHidden = hiddenStates.includes(alarm.state);
  return (
    <article class={`alarm wants-${alarm.priority}`}>
      <h3>
        <Flag priority={alarm.priority} state={alarm.state} /> {conditionWords[alarm.condition]}
        <span class="code"> {alarm.code}</span>
      </h3>
      <Standing alarm={alarm} isHidden={isHidden} />
      {!isHidden && <Advice alarm={alarm} />}
      <p>
        <strong>{text.whyOn}</strong> {alarm.evidence.map(shownEvidence).join('; ')}.
      </p>
      {alarm.actions.length > 0 && (
        <p class="buttons">
          {alarm.actions
            .filter((action) => !isPressed(alarm, action))
            .map((action) => (
              <button
                key={action}
                type="button"
                class={action === 'acknowledge' ? '' : 'quiet'}
                onClick={() => press(action)}
              >
                {actionWords[action]}
              </button>
            ))}
        </p>
      )}
      {failure && (
        <p class="wrong" role="alert">
          {failure}
        </p>
      )}
      {asking === 'shelve' && (
        <ShelveSheet pileId={pileId} alarms={[alarm]} onClose={() => setAsking(null)} />
      )}
      {asking === 'take-out-of-service' && (
        <Form button={text.takeOut} onSend={({ reason }) => act('take-out-of-service', { reason })}>
          {(wrong) => (
            <Field label={text.why} name="reason" hint={text.whyHint} error={wrong('reason')} required />
          )}
        </Form>
      )}
    </article>
  );
}

function Standing({ alarm, isHidden }: { readonly alarm: AlarmView; readonly isHidden: boolean }) {
  const { activeSinceMs, acknowledgedBy, shelvedUntilMs } = alarm;
  const facts = [
    alarmStateWords[alarm.state],
    activeSinceMs === null
      ? null
      : text.since(dayAndTime(activeSinceMs), duration(serverNowMs.value - activeSinceMs)),
    acknowledgedBy && text.seenBy(acknowledgedBy),
    shelvedUntilMs === null ? null : text.backAt(dayAndTime(shelvedUntilMs)),
  ];
  return (
    <p>
      {!isHidden && <strong>{priorityWords[alarm.priority]}, </strong>}
      {facts.filter(Boolean).join(', ')}
      {alarm.hiddenReason && `: ${alarm.hiddenReason}`}
      {isPressed(alarm, 'acknowledge') && <strong>{text.seenPressed}</strong>}
      {isPressed(alarm, 'shelve') && <strong>{text.shelvePressed}</strong>}
    </p>
  );
}

/** What to do: with causes where they are in question, else the condition's own words. */
function Advice({ alarm }: { readonly alarm: AlarmView }) {
  if (alarm.explanation) return <Explained explanation={alarm.explanation} />;
  if (!alarm.words) return null;
  return (
    <div class="advice">
      <p class="first-action">
        <strong>{words.first}</strong> {alarm.words.firstAction}
      </p>
      <ul class="cautions">
        {alarm.words.cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </div>
  );
}

function shownEvidence({ label, value, unit }: AlarmView['evidence'][number]): string {
  if (typeof value === 'string') return `${label} ${value}`;
  if (unit === 'C') return `${label} ${temperature(value)}`;
  if (unit === 'C/h')
    return `${label} ${measures.perHour(`${temperatureChange(value)} ${display.value.unit}`)}`;
  return `${label} ${Number(value.toFixed(2))} ${unit}`.trim();
}
