import { useEffect, useState } from 'preact/hooks';
import { age, clockTime, day } from '../../../common/format.ts';
import type { ChartWindow } from '../chartWindow.ts';
import { text } from '../words.ts';
import { saidOf } from './Cut.tsx';
import type { PointAt } from './pointsAt.ts';

interface ScrubProps {
  readonly shown: ChartWindow;
  readonly nowMs: number;
  /** Null: now. */
  readonly momentMs: number | null;
  readonly points: readonly PointAt[];
  readonly onMoment: (momentMs: number | null) => void;
}

/** Places the slider can stand at over the shown stretch. */
const places = 336;
/** A whole stretch is played in this many steps. */
const playSteps = 84;
const playEveryMs = 120;

/** Moves the pictures and the chart's line through time: by finger, mouse or keyboard, or by itself. */
export function Scrub({ shown, nowMs, momentMs, points, onMoment }: ScrubProps) {
  const fromMs = shown.fromMs;
  const toMs = Math.max(fromMs + 1, Math.min(shown.toMs, nowMs));
  const step = Math.max(60_000, Math.round((toMs - fromMs) / places / 60_000) * 60_000);
  const last = Math.floor((toMs - fromMs) / step);
  const at = momentMs === null ? last : Math.max(0, Math.min(last, Math.round((momentMs - fromMs) / step)));
  const go = (place: number) => onMoment(place >= last && toMs === nowMs ? null : fromMs + place * step);
  const [playing, setPlaying] = useState(false);
  useEffect(() => {
    if (!playing) return undefined;
    if (momentMs === null) {
      setPlaying(false);
      return undefined;
    }
    const timer = setTimeout(() => go(Math.min(last, at + Math.ceil(last / playSteps))), playEveryMs);
    return () => clearTimeout(timer);
  }, [playing, at]);
  const play = () => {
    if (momentMs === null) onMoment(fromMs);
    setPlaying(!playing);
  };
  const said = momentMs === null ? text.now : `${day(momentMs)}, ${clockTime(momentMs)}`;
  return (
    <div class="scrub">
      <p class="scrub-moment">
        <label for="moment">{text.moment}</label> <strong>{said}</strong>
        <span class="hint"> {momentMs === null ? clockTime(nowMs) : age(nowMs - momentMs)}</span>
      </p>
      <input
        id="moment"
        type="range"
        min={0}
        max={last}
        value={at}
        aria-valuetext={text.momentWith(said, points.map(saidOf).join(', '))}
        onInput={(event) => {
          setPlaying(false);
          go(Number((event.currentTarget as HTMLInputElement).value));
        }}
      />
      <div class="buttons">
        <button type="button" class="quiet" onClick={play} aria-pressed={playing}>
          {playing ? text.pause : text.play}
        </button>
        <button type="button" class="quiet" disabled={at === 0} onClick={() => go(Math.max(0, at - 12))}>
          {text.back}
        </button>
        <button type="button" class="quiet" disabled={momentMs === null} onClick={() => go(at + 12)}>
          {text.on}
        </button>
      </div>
    </div>
  );
}
