import { figureOf } from '../../../shared/compost/planner/figures.ts';
import { readLine } from '../../../shared/compost/planner/lineIngredient.ts';
import { type FigureName, figureNames, type PlanLine } from '../../../shared/compost/planner/plan.ts';
import { NumberField } from './NumberField.tsx';
import { changeLine } from './planState.ts';
import { figureWords, text } from './words.ts';

const isShare = (name: FigureName) => name !== 'carbonToNitrogen' && name !== 'bulkDensity';

const limits: Readonly<Record<FigureName, readonly [min: number, max: number]>> = {
  moistureFraction: [0, 98],
  nitrogenFractionDry: [0, 20],
  carbonToNitrogen: [1, 5000],
  ashFractionDry: [0, 95],
  bulkDensity: [5, 2000],
};

/** Each number of an ingredient with its range and origin, and room to type what was measured instead. */
export function LineNumbers({ line }: { readonly line: PlanLine }) {
  const reading = readLine(line);
  const assumptions = reading.ingredient === null ? [] : reading.assumptions;
  return (
    <details open={line.feedstockId === null}>
      <summary>{text.itsNumbers}</summary>
      {line.feedstockId !== null && <p class="hint">{text.leaveEmpty}</p>}
      <div class="numbers">
        {figureNames.map((name) => (
          <OneNumber key={name} line={line} name={name} />
        ))}
      </div>
      {assumptions.length > 0 && (
        <>
          <p>{text.assumed}</p>
          <ul>
            {assumptions.map((assumption) => (
              <li key={assumption}>{assumption}</li>
            ))}
          </ul>
        </>
      )}
    </details>
  );
}

function OneNumber({ line, name }: { readonly line: PlanLine; readonly name: FigureName }) {
  const scale = isShare(name) ? 100 : 1;
  const table = figureOf({ ...line, own: { ...line.own, [name]: null } }, name);
  const show = (value: number) => String(Number((value * scale).toPrecision(3)));
  const [min, max] = limits[name];
  return (
    <NumberField
      label={figureWords[name]}
      value={line.own[name]}
      onChange={(value) => changeLine(line.key, { own: { ...line.own, [name]: value } })}
      min={min}
      max={max}
      scale={scale}
      optional
      placeholder={table.value === null ? '' : show(table.value)}
      hint={originWords(table, show, name)}
    />
  );
}

function originWords(
  { value, low, high, valueFrom, rangeFrom }: ReturnType<typeof figureOf>,
  show: (value: number) => string,
  name: FigureName,
): string {
  if (value === null) {
    return name === 'ashFractionDry' ? text.ashUnknown : text.numberUnknown;
  }
  return low === null || high === null
    ? text.numberFrom(show(value), valueFrom!)
    : text.numberFromRange(show(value), valueFrom!, show(low), show(high), rangeFrom!);
}
