import type { Banded } from '../../../shared/compost/forecast/banded.ts';
import type { CourseAnswer } from '../../../shared/compost/planner/predictCourse.ts';
import { percent, temperature } from '../../common/format.ts';
import { plan } from './planState.ts';

/** `7 days (2 to 12)`. */
export function dayWords({ low, middle, high }: Banded): string {
  const show = (days: number) => (days > 0 && days < 9.5 ? days.toFixed(1) : days.toFixed(0));
  const days = show(middle) === '1.0' ? 'day' : 'days';
  return `${show(middle)} ${days} (${show(low)} to ${show(high)})`;
}

export function peakWords({ low, middle, high }: Banded): string {
  return `${temperature(middle, 0)} (${temperature(low, 0)} to ${temperature(high, 0)})`;
}

/** Common practice, no source, as in the rule for "hot for too long": budget of days at 55 C or more in a static cage. */
const hotBudgetDays = 14;

/** The course in words a grower would use, each with its range. */
export function CourseFacts({ answer }: { readonly answer: CourseAnswer }) {
  return (
    <>
      <p class="note verdict">{verdictWords(answer)}</p>
      <dl class="facts">
        <div>
          <dt>Peak</dt>
          <dd>
            {peakWords(answer.peakCelsius)}, about day {Math.round(answer.peakDay)}
          </dd>
        </div>
        <div>
          <dt>Days at {temperature(55, 0)} or more</dt>
          <dd>{dayWords(answer.daysAbove55)}</dd>
        </div>
        <div>
          <dt>Days too hot: {temperature(65, 0)} or more</dt>
          <dd>{dayWords(answer.daysAbove65)}</dd>
        </div>
        <div>
          <dt>Over the {temperature(71, 0)} ceiling</dt>
          <dd>
            in {answer.shareReaching71 === 0 ? 'none' : Math.round(answer.shareReaching71 * answer.runs)} of{' '}
            {answer.runs} runs
          </dd>
        </div>
        <div>
          <dt>Driest the core gets</dt>
          <dd>{percent(answer.lowestMoistureFraction)} moisture</dd>
        </div>
        <div>
          <dt>Left after three months</dt>
          <dd>{percent(answer.volumeShareLeft)} of the volume</dd>
        </div>
      </dl>
    </>
  );
}

function verdictWords({ shareReaching55, daysAbove55, dayOf55, runs }: CourseAnswer): string {
  const often = `${Math.round(shareReaching55 * runs)} of ${runs} runs reach ${temperature(55, 0)}`;
  if (shareReaching55 < 0.2)
    return `Unlikely to heat: only ${often}. See the gauges under Mix for what is out of range.`;
  if (shareReaching55 < 0.8 || dayOf55 === null) return `May or may not heat: ${often}.`;
  const reached = `Should reach ${temperature(55, 0)} about day ${Math.round(dayOf55)} (${often}).`;
  const neverTurned = plan.value.running.turnEveryDays === null;
  if (neverTurned && daysAbove55.middle > hotBudgetDays)
    return `${reached} Then it stays hot for longer than the ${hotBudgetDays} days a never-turned pile is usually given; weeks of heat cost its fungi (common practice, no source). Compare composting it first.`;
  return reached;
}
