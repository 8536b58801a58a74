import { computed, type ReadonlySignal } from '@preact/signals';
import { Component } from 'preact';
import { useMemo } from 'preact/hooks';
import type { AlarmState } from '../../shared/alarms/alarm.ts';
import type { Cell } from '../../shared/api/mapCells.ts';
import type { WallAlarm, WallPile } from '../../shared/api/types.ts';
import { Flag } from '../common/Flag.tsx';
import { age, display, duration, percent, temperatureNumber, trend } from '../common/format.ts';
import { slowNowMs } from '../common/live.ts';
import { oldAfterMs } from '../common/old.ts';
import { SectionPicture } from '../common/SectionPicture.tsx';
import { Spark } from '../common/Spark.tsx';
import { alarmStateShort, conditionWords, stageWords, words } from '../common/words.ts';
import { Arrow } from './Arrow.tsx';
import { drawsPictures } from './pictures.ts';
import { wallWords } from './words.ts';

interface PileProps {
  readonly pile: WallPile;
}

interface TileProps extends PileProps {
  /** Where it stands on a wall that is ordered by the yard's map; null: one after the other. */
  readonly cell: Cell | null;
}

const hourMs = 3_600_000;

/** Something of a pile that time alone changes: what shows it is drawn again only when it comes out different. */
function useOverTime<T>(pile: WallPile, of: (nowMs: number) => T): T {
  const value: ReadonlySignal<T> = useMemo(() => computed(() => of(slowNowMs.value)), [pile]);
  return value.value;
}

/**
 * One pile on the wall: what it is, how hot, where that is going, how sure we are, and who is wanted. Drawn again only
 * when the pile itself is new; ages move on by themselves in the parts that show them.
 */
export class PileTile extends Component<TileProps> {
  override shouldComponentUpdate(next: TileProps): boolean {
    const { pile, cell } = this.props;
    return next.pile !== pile || next.cell?.column !== cell?.column || next.cell?.row !== cell?.row;
  }

  override render({ pile, cell }: TileProps) {
    const worst = pile.alarms[0];
    return (
      <li class={tileClass(worst)} style={{ ...lettersOf(pile), ...placeOf(cell) }}>
        <a class="tile-inner" href={`/#/piles/${encodeURIComponent(pile.id)}`}>
          <header>
            <h2>{pile.name}</h2>
            <p class="place">{pile.place}</p>
          </header>
          <Cut pile={pile} />
          <Core pile={pile} />
          <Facts pile={pile} />
          <Course pile={pile} />
          {worst && <Call pile={pile} worst={worst} />}
        </a>
      </li>
    );
  }
}

const placeOf = (cell: Cell | null) =>
  cell === null ? { gridColumn: 'auto', gridRow: 'auto' } : { gridColumn: cell.column, gridRow: cell.row };

const seenStates: readonly AlarmState[] = ['acknowledged', 'latched-acknowledged'];

function tileClass(worst: WallAlarm | undefined): string {
  if (worst === undefined) return 'tile';
  return `tile wants wants-${worst.priority}${seenStates.includes(worst.state) ? ' seen' : ''}`;
}

/** Long words get smaller letters; the stylesheet works them out from these counts and the size of the tile. */
function lettersOf({ name, alarms }: WallPile) {
  const call = alarms[0] ? conditionWords[alarms[0].condition] : '';
  return { '--name-letters': Math.max(widthOf(name), 5), '--call-letters': Math.max(widthOf(call), 8) };
}

/** Letters, capitals counted as one and a quarter. */
const widthOf = (text: string) => text.length + (text.match(/\p{Lu}/gu)?.length ?? 0) / 4;

function Cut({ pile }: PileProps) {
  // Which points are too old to be believed; their colours change only with it.
  useOverTime(pile, (now) =>
    pile.points.map(({ timeMs }) => Number(timeMs !== null && now - timeMs > oldAfterMs)).join(),
  );
  if (!drawsPictures.value) return null;
  return <SectionPicture id={pile.id} method={pile.method} points={pile.points} nowMs={slowNowMs.peek()} />;
}

function Core({ pile }: PileProps) {
  const { core } = pile;
  const old = useOverTime(pile, (now) => core !== null && now - core.timeMs > oldAfterMs);
  if (core === null) return <NoCore pile={pile} />;
  const going = old ? null : trend(pile.trendCelsiusPerHour);
  const digits = temperatureNumber(core.celsius);
  return (
    <div class={`core ${old ? 'core-old' : ''}`} style={{ '--core-letters': digits.length - 0.5 }}>
      <p class="core-value">
        <strong>{digits}</strong>
        <span class="core-side">
          <span class="unit">{display.value.unit}</span>
          {going && <Arrow turn={going.turn} />}
        </span>
      </p>
      <p class="going">
        {going && <span class="going-words">{words.going(going.word, going.detail)}</span>}
        <Age pile={pile} timeMs={core.timeMs} old={old} />
      </p>
    </div>
  );
}

/** Nothing to believe: no probe, or for how long none of its cores has said anything. */
function NoCore({ pile }: PileProps) {
  const cores = pile.points.filter(({ position }) => position === 'core');
  const lastMs = Math.max(...cores.map(({ timeMs }) => timeMs ?? 0));
  const nothing = useOverTime(pile, (now) =>
    lastMs > 0 ? words.noReadingFor(duration(now - lastMs)) : words.noReading,
  );
  return (
    <div class="core core-none">
      <strong>{pile.points.length === 0 ? words.noProbe : nothing}</strong>
    </div>
  );
}

interface AgeProps extends PileProps {
  readonly timeMs: number;
  readonly old: boolean;
}

function Age({ pile, timeMs, old }: AgeProps) {
  const shown = useOverTime(pile, (now) =>
    now - timeMs > oldAfterMs ? words.noReadingFor(duration(now - timeMs)) : age(now - timeMs),
  );
  return <span class={old ? 'age age-old' : 'age'}>{shown}</span>;
}

function Facts({ pile }: PileProps) {
  const progress = pile.sanitisationProgress;
  return (
    <p class="facts">
      {pile.stage && <span class="stage">{stageWords[pile.stage]}</span>}
      {pile.moisture && <span>{words.moistureIs(percent(pile.moisture.fraction))}</span>}
      {progress !== null && <span>{words.sanitisationIs(percent(Math.min(1, progress)))}</span>}
    </p>
  );
}

function Course({ pile }: PileProps) {
  const hourEndMs = useOverTime(pile, (now) => Math.ceil(now / hourMs) * hourMs);
  const isDrawn = pile.spark.length > 0 && drawsPictures.value;
  return <div class="course">{isDrawn && <Spark hours={pile.spark} nowMs={hourEndMs} />}</div>;
}

interface CallProps extends PileProps {
  readonly worst: WallAlarm;
}

/** Who is wanted and why: flag, words, and whether somebody has seen it. */
function Call({ pile, worst }: CallProps) {
  const { sinceMs } = worst;
  const state = alarmStateShort[worst.state];
  const standing = useOverTime(pile, (now) =>
    sinceMs === null ? state : wallWords.stateFor(state, duration(now - sinceMs)),
  );
  const others = pile.alarms.length - 1;
  return (
    <p class="call">
      <Flag priority={worst.priority} state={worst.state} />
      <span class="call-what">{conditionWords[worst.condition]}</span>
      <span class="call-state">{others > 0 ? wallWords.stateAndMore(standing, others) : standing}</span>
    </p>
  );
}
