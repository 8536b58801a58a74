import type { RefObject } from 'preact';
import { useState } from 'preact/hooks';
import type { JournalEntryView } from '../../../shared/api/types.ts';
import { dayAndTime } from '../../common/format.ts';
import { journalWords } from '../../common/words.ts';
import type { ChartWindow } from './chartWindow.ts';
import { clusterMarks } from './clusterMarks.ts';
import { shownValue } from './journalEntry.ts';
import { markSigns } from './words.ts';

/** Where the curves lie in the page's column, in pixels. */
export interface Area {
  readonly left: number;
  readonly width: number;
}

interface MarksProps {
  readonly journal: readonly JournalEntryView[];
  readonly shown: ChartWindow;
  readonly area: Area | null;
  /** Moved along while the curves are pulled. */
  readonly row: RefObject<HTMLDivElement | null>;
}

/** Wide enough for a thumb. */
const markPixels = 44;

/** The journal's entries above the curves; a tap says what they are. */
export function Marks({ journal, shown, area, row }: MarksProps) {
  const [openId, setOpenId] = useState<string | null>(null);
  if (area === null) return <div class="marks" />;
  const marks = clusterMarks(journal, shown, area.width, markPixels);
  const open = marks.find(({ entries }) => entries.some(({ id }) => id === openId));
  return (
    <>
      <div class="marks" ref={row}>
        {marks.map(({ pixels, entries }) => {
          const [first] = entries;
          const isOpen = open?.entries[0] === first;
          return (
            <button
              key={first!.id}
              type="button"
              class="quiet mark"
              aria-expanded={isOpen}
              style={{ left: `${area.left + pixels - markPixels / 2}px` }}
              onClick={() => setOpenId(isOpen ? null : first!.id)}
            >
              <span aria-hidden="true">{entries.length === 1 ? markSigns[first!.kind] : entries.length}</span>
              <span class="visually-hidden">
                {entries.map(({ kind }) => journalWords[kind]).join(', ')}, {dayAndTime(first!.timeMs)}
              </span>
            </button>
          );
        })}
      </div>
      <div aria-live="polite">
        {open && (
          <ul class="log mark-said">
            {open.entries.map((entry) => (
              <li key={entry.id}>
                <time dateTime={new Date(entry.timeMs).toISOString()}>{dayAndTime(entry.timeMs)}</time>{' '}
                <strong>{journalWords[entry.kind]}</strong> {shownValue(entry)} {entry.note}
              </li>
            ))}
          </ul>
        )}
      </div>
    </>
  );
}
