import { useState } from 'preact/hooks';
import { isWater } from '../../../shared/compost/planner/figures.ts';
import type { CourseAnswer } from '../../../shared/compost/planner/predictCourse.ts';
import { temperature } from '../../common/format.ts';
import { Pick } from './Choice.tsx';
import { CourseFacts } from './CourseFacts.tsx';
import { CoursePlot } from './CoursePlot.tsx';
import { FirstTable } from './FirstTable.tsx';
import { firstCourse, freshCourse } from './heatState.ts';
import { heatWords } from './heatWords.ts';
import { NumberField, TemperatureField } from './NumberField.tsx';
import { change, plan } from './planState.ts';
import { RestsOn } from './RestsOn.tsx';
import { type CourseState, useCourse } from './useCourse.ts';
import { text } from './words.ts';

/** The course to expect, and beside it the course when something is composted first. */
export function HeatPart() {
  const [comparing, setComparing] = useState(false);
  const fresh = freshCourse.value;
  const course = useCourse(fresh.question);
  const other = useCourse(comparing ? firstCourse.value.question : null);
  return (
    <>
      <section aria-labelledby="heat-title">
        <h2 id="heat-title">{heatWords.prediction}</h2>
        <Keeping />
        {fresh.missing && <p class="note">{heatWords.needs(fresh.missing)}</p>}
        {fresh.question && <Running state={course} />}
        {course.answer && <CoursePlot courses={[{ label: heatWords.core, answer: course.answer }]} />}
        {course.answer && <CourseFacts answer={course.answer} />}
      </section>
      <section aria-labelledby="first-title">
        <h2 id="first-title">{heatWords.composted}</h2>
        <label class="tick">
          <input
            type="checkbox"
            checked={comparing}
            onChange={(event) => setComparing(event.currentTarget.checked)}
          />
          {heatWords.compare}
        </label>
        {comparing && <FirstChoice />}
        {comparing && firstCourse.value.missing && <p class="note">{firstCourse.value.missing}</p>}
        {comparing && firstCourse.value.question && <Running state={other} />}
        {comparing && course.answer && other.answer && <Both fresh={course.answer} first={other.answer} />}
        {comparing && course.answer && other.answer && (
          <FirstTable fresh={course.answer} composted={other.answer} />
        )}
      </section>
      <RestsOn />
    </>
  );
}

function Both({ fresh, first }: { readonly fresh: CourseAnswer; readonly first: CourseAnswer }) {
  return (
    <CoursePlot
      courses={[
        { label: heatWords.fresh, answer: fresh },
        { label: heatWords.compostedFirst, answer: first },
      ]}
    />
  );
}

function Running({ state }: { readonly state: CourseState }) {
  if (state.failure !== null) return <p class="wrong">{heatWords.failed(state.failure)}</p>;
  if (state.progress === null) return null;
  return (
    <p class="running">
      <label>
        {heatWords.running} <progress value={state.progress} max={1} />
      </label>{' '}
      {Math.round(state.progress * 100)} %
    </p>
  );
}

/** How the pile will be kept: what the course depends on besides the mix. */
function Keeping() {
  const { running } = plan.value;
  const put = (parts: Partial<typeof running>) => change({ running: { ...running, ...parts } });
  return (
    <div class="numbers">
      <TemperatureField
        label={heatWords.air}
        celsius={running.airCelsius}
        minCelsius={-30}
        maxCelsius={45}
        onChange={(airCelsius) => put({ airCelsius })}
      />
      <TemperatureField
        label={heatWords.start}
        celsius={running.startCelsius}
        minCelsius={-5}
        maxCelsius={60}
        onChange={(startCelsius) => put({ startCelsius })}
      />
      <NumberField
        label={heatWords.water}
        value={running.litresEveryOtherDay}
        min={0}
        max={500}
        onChange={(litres) => litres !== null && put({ litresEveryOtherDay: litres })}
      />
      <NumberField
        label={heatWords.pullPipes}
        value={running.pullPipesDay}
        min={0}
        max={365}
        optional
        placeholder={heatWords.pullNever}
        hint={heatWords.pullHint}
        onChange={(pullPipesDay) => put({ pullPipesDay })}
      />
      <NumberField
        label={heatWords.turn}
        value={running.turnEveryDays}
        min={1}
        max={90}
        optional
        placeholder={heatWords.turnNever}
        hint={heatWords.turnHint}
        onChange={(turnEveryDays) => put({ turnEveryDays })}
      />
    </div>
  );
}

function FirstChoice() {
  const { first, lines } = plan.value;
  const named = lines
    .filter((line) => !isWater(line))
    .map((line) => [line.key, line.name.trim() || text.yourOwn] as const);
  return (
    <div class="numbers">
      <Pick
        label={heatWords.which}
        value={first.lineKey}
        choices={[['all', heatWords.wholeMix], ...named]}
        onChange={(lineKey) => change({ first: { ...first, lineKey } })}
      />
      <NumberField
        label={heatWords.daysHot}
        value={first.days}
        min={1}
        max={120}
        onChange={(days) => days !== null && change({ first: { ...first, days } })}
        hint={heatWords.daysHotHint(temperature(40, 0))}
      />
    </div>
  );
}
