import type { ConditionId } from '../../../shared/alarms/alarm.ts';
import type { ReplayOutcome } from '../../../shared/rules/replayJob.ts';
import type { ReplayReport } from '../../../shared/rules/replayReport.ts';
import { dayAndTime } from '../../common/format.ts';
import { type Scale, xAt } from './chartScale.ts';
import { limitWords } from './words.ts';

interface LanesProps {
  readonly scale: Scale;
  readonly condition: ConditionId;
  readonly outcome: ReplayOutcome | null;
}

/** When this alarm would have stood, and each text about it: a furrow for the limits in force, one for those on trial. */
export function Lanes({ scale, condition, outcome }: LanesProps) {
  if (outcome === null) return <div class="lanes" />;
  return (
    <div class="lanes">
      <Lane scale={scale} condition={condition} name={limitWords.inForce} report={outcome.current} />
      {outcome.candidate !== null && (
        <Lane scale={scale} condition={condition} name={limitWords.onTrial} report={outcome.candidate} />
      )}
    </div>
  );
}

interface LaneProps {
  readonly scale: Scale;
  readonly condition: ConditionId;
  readonly name: string;
  readonly report: ReplayReport;
}

const height = 18;

function Lane({ scale, condition, name, report }: LaneProps) {
  const alarms = report.alarms.filter((alarm) => alarm.condition === condition);
  const texts = report.texts.filter((text) => text.condition === condition);
  const said = limitWords.lane(name, alarms.length, texts.length);
  return (
    <figure class="lane">
      <figcaption>{said}</figcaption>
      <svg width={scale.width} height={height} role="img" aria-label={said}>
        <path class="lane-ground" d={`M0 ${height - 1} H${scale.width}`} />
        {alarms.map(({ startMs, endMs }) => {
          const x = xAt(scale, Math.max(startMs, scale.fromMs));
          return (
            <rect
              key={startMs}
              class="lane-alarm"
              x={x}
              y="7"
              width={Math.max(3, xAt(scale, endMs ?? scale.toMs) - x)}
              height={height - 8}
            >
              <title>{`${dayAndTime(startMs)} ${endMs === null ? limitWords.stillStood : `- ${dayAndTime(endMs)}`}`}</title>
            </rect>
          );
        })}
        {texts.map(({ atMs }) => (
          <path key={atMs} class="lane-text" d={`M${xAt(scale, atMs)} ${height} V1 l7 3 l-7 3`} />
        ))}
      </svg>
    </figure>
  );
}
