import { kilogramsPerLitre, partOfLine } from '../../../shared/compost/planner/amounts.ts';
import { feedstockOf, figureOf, isWater } from '../../../shared/compost/planner/figures.ts';
import { readLine } from '../../../shared/compost/planner/lineIngredient.ts';
import { amountUnits, type PlanLine } from '../../../shared/compost/planner/plan.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { Pick } from './Choice.tsx';
import { focusSoon } from './focusSoon.ts';
import { LineNumbers } from './LineNumbers.tsx';
import { NumberField } from './NumberField.tsx';
import { change, changeLine, mix, plan } from './planState.ts';
import { text, unitWords } from './words.ts';

const unitChoices = amountUnits.map((unit) => [unit, unitWords[unit]] as const);

/** One ingredient: how much of it, and on request its numbers. */
export function LineCard({ line }: { readonly line: PlanLine }) {
  const problem = mix.value.problems.get(line.key);
  const isOwn = line.feedstockId === null;
  const title = line.name.trim() || text.yourOwn;
  const remove = () => {
    change({ lines: plan.value.lines.filter(({ key }) => key !== line.key) });
    focusSoon('#find-ingredient');
  };
  return (
    <li class="card line" aria-label={title}>
      <div class="line-head">
        <h3>{title}</h3>
        <button type="button" class="quiet small" onClick={remove} aria-label={text.removeOf(title)}>
          {text.remove}
        </button>
      </div>
      {isOwn && (
        <div class="field">
          <label for={`name-${line.key}`}>{text.ownName}</label>
          <input
            id={`name-${line.key}`}
            value={line.name}
            maxLength={80}
            onInput={(event) => changeLine(line.key, { name: event.currentTarget.value })}
          />
        </div>
      )}
      <p class="hint">{factWords(line)}</p>
      <div class="line-amount">
        <NumberField
          label={text.amountOf(title)}
          labelHidden
          value={line.amount}
          onChange={(amount) => changeLine(line.key, { amount })}
          min={0}
          max={1_000_000}
          optional
          placeholder={text.amountHere}
          readOnly={line.find}
        />
        <Pick
          label={text.unitOf(title)}
          labelHidden
          value={line.unit}
          choices={unitChoices}
          onChange={(unit) => changeLine(line.key, { unit })}
        />
        <label class="tick">
          <input
            type="checkbox"
            checked={line.find}
            onChange={(event) => changeLine(line.key, { find: event.currentTarget.checked })}
            aria-label={text.workOutOf(title)}
          />
          {text.workOut}
        </label>
      </div>
      <p class="hint">{otherUnits(line)}</p>
      {problem && <p class="wrong">{problem}</p>}
      {!isWater(line) && <LineNumbers line={line} />}
    </li>
  );
}

/** The numbers the mix is reckoned with, in one line. */
function factWords(line: PlanLine): string {
  if (isWater(line)) return text.waterIs;
  const ratio = figureOf(line, 'carbonToNitrogen').value;
  const moisture = figureOf(line, 'moistureFraction').value;
  const density = figureOf(line, 'bulkDensity').value;
  return [
    ratio === null ? text.ratioUnknown : text.ratioIs(round(ratio)),
    moisture === null ? text.moistureUnknown : text.moistureIs(round(moisture * 100)),
    density === null ? text.densityUnknown : text.densityIs(round(density)),
    feedstockOf(line) === null ? text.yourNumbers : feedstockOf(line)!.status,
  ].join(', ');
}

/** The amount again in kg and litres, so that either scale or bucket will do. */
function otherUnits(line: PlanLine): string {
  const { part } = partOfLine(line, plan.value);
  const { ingredient } = readLine(line);
  if (part === null || ingredient === null) return line.find ? text.toWorkOut : '';
  const perLitre = kilogramsPerLitre(ingredient);
  const kilograms = round(part.wetKilograms);
  const inLitres = isWater(line) ? text.comesToLitres : text.comesToLoose;
  const said =
    perLitre === null ? text.comesTo(kilograms) : inLitres(kilograms, round(part.wetKilograms / perLitre));
  return line.find ? text.andWorkedOut(said) : said;
}
