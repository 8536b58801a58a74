import type { MixFigures } from '../../../shared/compost/planner/mixFigures.ts';
import type { CourseAnswer } from '../../../shared/compost/planner/predictCourse.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { percent, temperature } from '../../common/format.ts';
import { measures } from '../../common/words.ts';
import { dayWords, peakWords } from './CourseFacts.tsx';
import { first } from './heatState.ts';
import { heatWords } from './heatWords.ts';
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
      heatWords.nitrogenLost,
      heatWords.noneLost,
      heatWords.lost(percent(after.nitrogenShareLost), round(after.nitrogenKilogramsLost)),
    ],
    [heatWords.waterToAdd, heatWords.asPlanned, measures.litres(round(after.litresToAdd))],
    [heatWords.peakOfMain, peakWords(fresh.peakCelsius), peakWords(composted.peakCelsius)],
    [heatWords.daysAt(temperature(55, 0)), dayWords(fresh.daysAbove55), dayWords(composted.daysAbove55)],
    [heatWords.daysTooHot(temperature(65, 0)), dayWords(fresh.daysAbove65), dayWords(composted.daysAbove65)],
    [
      heatWords.runsReach(temperature(55, 0)),
      percent(fresh.shareReaching55),
      percent(composted.shareReaching55),
    ],
  ];
  return (
    <>
      <WideTable label={heatWords.sideBySide}>
        <thead>
          <tr>
            <td />
            <th scope="col">{heatWords.freshColumn}</th>
            <th scope="col">{heatWords.compostedColumn}</th>
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
      <p class="hint">{heatWords.firstHint(temperature(55, 0))}</p>
    </>
  );
}

function mixRows(before: MixFigures, after: MixFigures): (readonly [string, string, string])[] {
  const both = (name: string, show: (figures: MixFigures) => string) =>
    [name, show(before), show(after)] as const;
  return [
    both(heatWords.weight, ({ wetKilograms }) => measures.kilograms(round(wetKilograms))),
    both(heatWords.volume, ({ cubicMetres }) =>
      cubicMetres === null ? heatWords.notKnown : measures.cubicMetres(round(cubicMetres)),
    ),
    both(heatWords.ratio, ({ carbonToNitrogen }) =>
      carbonToNitrogen === null ? heatWords.notKnown : round(carbonToNitrogen),
    ),
    both(heatWords.moisture, ({ moistureFraction }) => percent(moistureFraction)),
  ];
}
