import { useState } from 'preact/hooks';
import type { AlarmView, PilePage } from '../../../../shared/api/types.ts';
import { conditionWords } from '../../../common/words.ts';
import { text } from '../words.ts';
import type { DeedKind } from './DidIt.tsx';
import { pressSeen } from './deeds.ts';
import { waiting } from './outbox.ts';
import { Sheet } from './Sheet.tsx';
import { ShelveSheet } from './ShelveSheet.tsx';
import { Waiting } from './Waiting.tsx';

interface ThumbBarProps {
  readonly page: PilePage;
  readonly onDeed: (kind: DeedKind | 'menu') => void;
}

/** What a thumb reaches at the bottom: seen, shelve, did it; and above them what has not arrived yet. */
export function ThumbBar({ page, onDeed }: ThumbBarProps) {
  const [sheet, setSheet] = useState<'seen' | 'shelve' | null>(null);
  const unseen = offering(page, 'acknowledge');
  const shelvable = offering(page, 'shelve').filter(({ state }) => !hidden.includes(state));
  const pressedSeen = () => {
    if (unseen.length === 1) void pressSeen(page.pile.id, unseen[0]!);
    else setSheet('seen');
  };
  return (
    <div class="thumb">
      <Waiting />
      {page.mayWrite && (
        <section class="thumb-bar" aria-label={text.quickButtons}>
          {unseen.length > 0 && (
            <button type="button" onClick={pressedSeen}>
              {unseen.length === 1 ? text.seen : text.seenMany(unseen.length)}
            </button>
          )}
          {shelvable.length > 0 && (
            <button type="button" class="quiet" onClick={() => setSheet('shelve')}>
              {text.shelve}
            </button>
          )}
          <button type="button" class={unseen.length > 0 ? 'quiet' : ''} onClick={() => onDeed('menu')}>
            {text.didIt}
          </button>
        </section>
      )}
      {sheet === 'shelve' && (
        <ShelveSheet pileId={page.pile.id} alarms={shelvable} onClose={() => setSheet(null)} />
      )}
      {sheet === 'seen' && (
        <Sheet title={text.whichSeen} onClose={() => setSheet(null)}>
          <div class="big-buttons one-column">
            {unseen.map((alarm) => (
              <button key={alarm.id} type="button" onClick={() => void pressSeen(page.pile.id, alarm)}>
                {text.seenOf(conditionWords[alarm.condition])}
              </button>
            ))}
            {unseen.length === 0 && <p>{text.allSeen}</p>}
          </div>
        </Sheet>
      )}
    </div>
  );
}

const hidden: readonly string[] = ['suppressed', 'shelved', 'out-of-service'];

/** Alarms an action can be done to now and has not been pressed for. */
function offering(page: PilePage, action: 'acknowledge' | 'shelve'): AlarmView[] {
  return page.alarms.filter((alarm) => alarm.actions.includes(action) && !isPressed(alarm, action));
}

/** Whether a press for it waits on this device. */
export function isPressed({ id }: AlarmView, action: string): boolean {
  return waiting.value.some(
    ({ deed, refusal }) =>
      deed.kind === 'alarm' && deed.alarmId === id && deed.action === action && refusal === null,
  );
}
