import type { Banded } from '../../../shared/compost/forecast/banded.ts';
import type { CourseAnswer } from '../../../shared/compost/planner/predictCourse.ts';
import { percent, temperature } from '../../common/format.ts';
import { heatWords } from './heatWords.ts';
import { plan } from './planState.ts';

/** `7 days (2 to 12)`. */
export function dayWords({ low, middle, high }: Banded): string {
  const show = (days: number) => (days > 0 && days < 9.5 ? days.toFixed(1) : days.toFixed(0));
  return heatWords.days(show(middle), show(low), show(high));
}

export function peakWords({ low, middle, high }: Banded): string {
  return heatWords.band(temperature(middle, 0), temperature(low, 0), temperature(high, 0));
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
          <dt>{heatWords.peakTerm}</dt>
          <dd>{heatWords.peak(peakWords(answer.peakCelsius), Math.round(answer.peakDay))}</dd>
        </div>
        <div>
          <dt>{heatWords.daysAt(temperature(55, 0))}</dt>
          <dd>{dayWords(answer.daysAbove55)}</dd>
        </div>
        <div>
          <dt>{heatWords.daysTooHot(temperature(65, 0))}</dt>
          <dd>{dayWords(answer.daysAbove65)}</dd>
        </div>
        <div>
          <dt>{heatWords.overCeiling(temperature(71, 0))}</dt>
          <dd>{heatWords.inRuns(Math.round(answer.shareReaching71 * answer.runs), answer.runs)}</dd>
        </div>
        <div>
          <dt>{heatWords.driestTerm}</dt>
          <dd>{heatWords.driest(percent(answer.lowestMoistureFraction))}</dd>
        </div>
        <div>
          <dt>{heatWords.leftTerm}</dt>
          <dd>{heatWords.left(percent(answer.volumeShareLeft))}</dd>
        </div>
      </dl>
    </>
  );
}

function verdictWords({ shareReaching55, daysAbove55, dayOf55, runs }: CourseAnswer): string {
  const often = heatWords.often(Math.round(shareReaching55 * runs), runs, temperature(55, 0));
  if (shareReaching55 < 0.2) return heatWords.unlikely(often);
  if (shareReaching55 < 0.8 || dayOf55 === null) return heatWords.mayHeat(often);
  const reached = heatWords.reaches(temperature(55, 0), Math.round(dayOf55), often);
  const neverTurned = plan.value.running.turnEveryDays === null;
  if (neverTurned && daysAbove55.middle > hotBudgetDays)
    return `${reached} ${heatWords.hotTooLong(hotBudgetDays)}`;
  return reached;
}
