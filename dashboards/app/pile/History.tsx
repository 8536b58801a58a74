import type { AlarmTransitionView } from '../../../shared/api/types.ts';
import { dayAndTime } from '../../common/format.ts';
import { alarmStateWords, conditionWords } from '../../common/words.ts';
import { Log } from './Log.tsx';
import { text } from './words.ts';

/** What became of this pile's alarms, newest first. */
export function History({ transitions }: { readonly transitions: readonly AlarmTransitionView[] }) {
  return (
    <section aria-labelledby="history-title">
      <h2 id="history-title">{text.history}</h2>
      {transitions.length === 0 && <p class="hint">{text.noHistory}</p>}
      <Log entries={transitions} first={5}>
        {(step) => (
          <li key={`${step.alarmId} ${step.atMs} ${step.event} ${step.to}`}>
            <time dateTime={new Date(step.atMs).toISOString()}>{dayAndTime(step.atMs)}</time>{' '}
            <strong>{conditionWords[step.condition]}</strong>: {alarmStateWords[step.to]}
            {step.by && <span class="hint"> {step.by}</span>}
            {step.note && <span class="hint"> {step.note}</span>}
          </li>
        )}
      </Log>
    </section>
  );
}
