import type { ConditionId } from '../../../shared/alarms/alarm.ts';
import { minutesOf, type ReplayAlarm } from '../../../shared/rules/replayAlarms.ts';
import type { ReplayOutcome } from '../../../shared/rules/replayJob.ts';
import type { ReplayReport } from '../../../shared/rules/replayReport.ts';
import { dayAndTime, duration } from '../../common/format.ts';
import { conditionWords, priorityWords } from '../../common/words.ts';
import { Log } from '../pile/Log.tsx';
import { Warnings } from './Warnings.tsx';
import { limitWords } from './words.ts';

interface OutcomeProps {
  readonly outcome: ReplayOutcome;
  /** Conditions judged of this pile, in their order. */
  readonly conditions: readonly ConditionId[];
  readonly chosen: ConditionId;
  readonly onChoose: (condition: ConditionId) => void;
}

/** What the past would have been like: texts, alarms that come or go, warning won or lost, trouble missed. */
export function Outcome({ outcome, conditions, chosen, onChoose }: OutcomeProps) {
  const { againstCurrent } = outcome;
  return (
    <>
      <Figures outcome={outcome} />
      {againstCurrent !== null && (
        <div class="come-and-gone">
          <Alarms title={limitWords.come} alarms={againstCurrent.come} toMs={toMsOf(outcome)} mark="+" />
          <Alarms title={limitWords.gone} alarms={againstCurrent.gone} toMs={toMsOf(outcome)} mark="−" />
        </div>
      )}
      <Warnings outcome={outcome} />
      <ByLimit outcome={outcome} conditions={conditions} chosen={chosen} onChoose={onChoose} />
    </>
  );
}

/** An alarm that still stood at the end stood until the last text or start that is known. */
function toMsOf({ current, candidate }: ReplayOutcome): number {
  const all = [...current.alarms, ...(candidate?.alarms ?? [])];
  return Math.max(0, ...all.map(({ startMs, endMs }) => endMs ?? startMs));
}

const perWeek = (report: ReplayReport) => report.textsPerWeek.toFixed(1);

function Figures({ outcome }: { readonly outcome: ReplayOutcome }) {
  const { current, candidate, defaults } = outcome;
  const columns: readonly (readonly [string, ReplayReport])[] = [
    [limitWords.inForce, current],
    ...(candidate === null ? [] : ([[limitWords.onTrial, candidate]] as const)),
    [limitWords.methods, defaults],
  ];
  const rows: readonly (readonly [string, (report: ReplayReport) => string])[] = [
    [limitWords.textsAWeek, perWeek],
    [limitWords.texts, ({ texts }) => String(texts.length)],
    [limitWords.alarms, ({ alarms }) => String(alarms.length)],
    [limitWords.missed, ({ missed }) => String(missed)],
  ];
  return (
    <table class="limit-figures">
      <thead>
        <tr>
          <td />
          {columns.map(([name]) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, of]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            {columns.map(([column, report]) => (
              <td key={column}>{of(report)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

interface AlarmsProps {
  readonly title: string;
  readonly alarms: readonly ReplayAlarm[];
  readonly toMs: number;
  readonly mark: string;
}

function Alarms({ title, alarms, toMs, mark }: AlarmsProps) {
  if (alarms.length === 0) return null;
  return (
    <div>
      <h3>
        {title} ({alarms.length})
      </h3>
      <Log entries={alarms} first={4}>
        {(alarm) => (
          <li key={`${alarm.condition} ${alarm.startMs}`}>
            <span aria-hidden="true">{mark}</span> <strong>{conditionWords[alarm.condition]}</strong>,{' '}
            {priorityWords[alarm.priority]}
            <br />
            <span class="hint">
              {dayAndTime(alarm.startMs)},{' '}
              {alarm.endMs === null ? limitWords.stillStood : duration(minutesOf(alarm, toMs) * 60_000)}
            </span>
          </li>
        )}
      </Log>
    </div>
  );
}

/** How often each condition spoke; pressing its name opens its numbers. */
function ByLimit({ outcome, conditions, chosen, onChoose }: OutcomeProps) {
  const { current, candidate } = outcome;
  const counts = (report: ReplayReport | null, id: ConditionId) => {
    const found = report?.conditions.find(({ condition }) => condition === id);
    return report === null ? '' : limitWords.counted(found?.alarms ?? 0, found?.texts ?? 0);
  };
  return (
    <details class="by-limit">
      <summary>{limitWords.byLimit}</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">{limitWords.limit}</th>
            <th scope="col">{limitWords.inForce}</th>
            {candidate !== null && <th scope="col">{limitWords.onTrial}</th>}
          </tr>
        </thead>
        <tbody>
          {conditions.map((id) => (
            <tr key={id}>
              <th scope="row">
                <button
                  type="button"
                  class="as-link"
                  aria-pressed={id === chosen}
                  onClick={() => onChoose(id)}
                >
                  {conditionWords[id]}
                </button>
              </th>
              <td>{counts(current, id)}</td>
              {candidate !== null && <td>{counts(candidate, id)}</td>}
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
