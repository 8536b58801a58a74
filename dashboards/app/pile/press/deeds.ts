import type { AlarmView } from '../../../../shared/api/types.ts';
import type { JournalKind } from '../../../../shared/yard/journal.ts';
import { serverNowMs } from '../../../common/live.ts';
import { conditionWords, journalWords } from '../../../common/words.ts';
import { shownValue } from '../journalEntry.ts';
import { text } from '../words.ts';
import { press } from './outbox.ts';
import { pressWords } from './words.ts';

export interface Written {
  readonly kind: JournalKind;
  readonly value?: number | null;
  readonly note?: string;
  readonly depthMetres?: number | null;
}

/** Presses "did it": written as of now, sent when it can be. */
export function writeDown(pileId: string, written: Written, photo: Blob | null = null): Promise<void> {
  const { kind, value = null, note = '', depthMetres = null } = written;
  const said = [
    photo === null ? journalWords[kind] : pressWords.photo,
    shownValue({ kind, value, depthMetres }),
    note,
  ];
  const body = { kind, value, note, depthMetres, timeMs: Math.round(serverNowMs.peek()) };
  return press(
    pileId,
    said.filter((part) => part !== '').join(', '),
    { kind: 'journal', pileId, body },
    photo,
  );
}

/** The alarm as it was looked at: one that comes anew before this arrives is left alone. */
function asSeen({ occurrence }: AlarmView) {
  return { occurrence, pressedMs: Math.round(serverNowMs.peek()) };
}

export function pressSeen(pileId: string, alarm: AlarmView): Promise<void> {
  const deed = { kind: 'alarm', alarmId: alarm.id, action: 'acknowledge', body: asSeen(alarm) } as const;
  return press(pileId, text.seenOf(conditionWords[alarm.condition]), deed);
}

export function pressShelve(
  pileId: string,
  alarm: AlarmView,
  minutes: number,
  reason: string,
): Promise<void> {
  const body = { ...asSeen(alarm), minutes, reason };
  const deed = { kind: 'alarm', alarmId: alarm.id, action: 'shelve', body } as const;
  return press(pileId, pressWords.shelved(conditionWords[alarm.condition], reason), deed);
}
