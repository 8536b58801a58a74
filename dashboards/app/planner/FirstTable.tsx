import type { MixFigures } from '../../../shared/compost/planner/mixFigures.ts';
import type { CourseAnswer } from '../../../shared/compost/planner/predictCourse.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { percent, temperature } from '../../common/format.ts';
import { dayWords, peakWords } from './CourseFacts.tsx';
import { first } from './heatState.ts';
import { mix } from './planState.ts';
import { WideTable } from './WideTable.tsx';

interface FirstTableProps {
  readonly fresh: CourseAnswer;
  readonly composted: CourseAnswer;
}

/** Both mixes and both courses side by side. */
export function FirstTable({ fresh, composted }: FirstTableProps) {
  const before = mix.value.figures;
  const after = first.value.first;
  if (before === null || after === null) return null;
  const rows: (readonly [string, string, string])[] = [
    ...mixRows(before, after.figures),
    [
      'Nitrogen lost beforehand',
      'none',
      `${percent(after.nitrogenShareLost)} (${round(after.nitrogenKilogramsLost)} kg)`,
    ],
    ['Water to add when building', 'as planned', `${round(after.litresToAdd)} litres`],
    ['Peak of the main pile', peakWords(fresh.peakCelsius), peakWords(composted.peakCelsius)],
    [`Days at ${temperature(55, 0)} or more`, dayWords(fresh.daysAbove55), dayWords(composted.daysAbove55)],
    [
      `Days too hot: ${temperature(65, 0)} or more`,
      dayWords(fresh.daysAbove65),
      dayWords(composted.daysAbove65),
    ],
    [
      `Runs that reach ${temperature(55, 0)}`,
      percent(fresh.shareReaching55),
      percent(composted.shareReaching55),
    ],
  ];
  return (
    <>
      <WideTable label="Fresh and composted first, side by side">
        <thead>
          <tr>
            <td />
            <th scope="col">Fresh</th>
            <th scope="col">Composted first</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([name, one, other]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{one}</td>
              <td>{other}</td>
            </tr>
          ))}
        </tbody>
      </WideTable>
      <p class="hint">
        The first heap does the heating instead: it must be turned, watered and watched. A main pile that
        stays below {temperature(55, 0)} earns no heat record of its own. Nitrogen lost: up to 40 % of what
        goes with the matter that is used up (from memory, unconfirmed).
      </p>
    </>
  );
}

function mixRows(before: MixFigures, after: MixFigures): (readonly [string, string, string])[] {
  const both = (name: string, show: (figures: MixFigures) => string) =>
    [name, show(before), show(after)] as const;
  return [
    both('Weight', ({ wetKilograms }) => `${round(wetKilograms)} kg`),
    both('Volume packed', ({ cubicMetres }) =>
      cubicMetres === null ? 'not known' : `${round(cubicMetres)} m3`,
    ),
    both('C:N', ({ carbonToNitrogen }) =>
      carbonToNitrogen === null ? 'not known' : round(carbonToNitrogen),
    ),
    both('Moisture', ({ moistureFraction }) => percent(moistureFraction)),
  ];
}
