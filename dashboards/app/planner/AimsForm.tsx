import { useState } from 'preact/hooks';
import { goalName, goalValueText } from '../../../shared/compost/mix/goal.ts';
import { type Finding, findAmounts, withAmounts } from '../../../shared/compost/planner/findAmounts.ts';
import { readLine } from '../../../shared/compost/planner/lineIngredient.ts';
import { type AimKind, aimKinds, newLine, type Plan, waterId } from '../../../shared/compost/planner/plan.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { adviceFor } from '../../../shared/compost/planner/whatWouldHelp.ts';
import { NumberField } from './NumberField.tsx';
import { change, container, plan } from './planState.ts';
import { aimWords, text } from './words.ts';

const limits: Readonly<Record<AimKind, readonly [min: number, max: number, scale: number]>> = {
  carbonToNitrogen: [5, 200, 1],
  moisture: [20, 90, 100],
  freeAirSpace: [5, 90, 100],
  volume: [0.01, 500, 1],
  weight: [1, 500_000, 1],
};

/** Aims to tick, the buttons that work out amounts, and what came of it. */
export function AimsForm() {
  const [finding, setFinding] = useState<{ readonly of: Plan; readonly found: Finding } | null>(null);
  const solve = (asked: Plan) => {
    const found = findAmounts(asked, container.value.container?.cubicMetres ?? 1);
    change(found.kind === 'found' ? withAmounts(asked, found.amounts) : asked);
    setFinding({ of: plan.value, found });
  };
  const count = plan.value.lines.filter(({ find }) => find).length;
  return (
    <section aria-labelledby="aims-title">
      <h2 id="aims-title">{text.aims}</h2>
      <p class="hint">{text.aimsHint}</p>
      <fieldset class="aims">
        <legend class="visually-hidden">{text.aimsLegend}</legend>
        {aimKinds.map((kind) => (
          <Aim key={kind} kind={kind} />
        ))}
      </fieldset>
      <p class="buttons">
        <button type="button" onClick={() => solve(plan.value)}>
          {text.findAmounts(count)}
        </button>
        <button type="button" class="quiet" onClick={() => solve(onlyWater(plan.value))}>
          {text.findWater(round((plan.value.aims.moisture.value ?? 0.6) * 100))}
        </button>
      </p>
      <div role="status">{finding && finding.of === plan.value && <Result finding={finding.found} />}</div>
    </section>
  );
}

function Aim({ kind }: { readonly kind: AimKind }) {
  const { aims } = plan.value;
  const { on, value } = aims[kind];
  const [min, max, scale] = limits[kind];
  const put = (parts: Partial<(typeof aims)[AimKind]>) =>
    change({ aims: { ...aims, [kind]: { ...aims[kind], ...parts } } });
  const fills = kind === 'volume' && container.value.container !== null;
  return (
    <div class="aim">
      <label class="tick">
        <input type="checkbox" checked={on} onChange={(event) => put({ on: event.currentTarget.checked })} />
        {aimWords[kind]}
      </label>
      <NumberField
        label={text.aimFor(aimWords[kind])}
        labelHidden
        value={value}
        onChange={(typed) => put({ value: typed })}
        min={min}
        max={max}
        scale={scale}
        optional={kind === 'volume'}
        {...(fills ? { placeholder: round(container.value.container!.cubicMetres) } : {})}
      />
    </div>
  );
}

/** The same plan asking only for water to meet only the moisture aim. */
function onlyWater(asked: Plan): Plan {
  const hasWater = asked.lines.some(({ feedstockId }) => feedstockId === waterId);
  const lines = hasWater ? asked.lines : [...asked.lines, newLine(asked, waterId, text.water)];
  const aims = Object.fromEntries(
    aimKinds.map((kind) => [kind, { ...asked.aims[kind], on: kind === 'moisture' }]),
  ) as Plan['aims'];
  return { ...asked, aims, lines: lines.map((line) => ({ ...line, find: line.feedstockId === waterId })) };
}

function Result({ finding }: { readonly finding: Finding }) {
  if (finding.kind === 'not ready') return <p class="wrong">{finding.why}</p>;
  if (finding.kind === 'found') return <Found amounts={finding.amounts} />;
  return <Infeasible finding={finding} />;
}

function nameOf(key: string): string {
  const line = plan.value.lines.find((each) => each.key === key);
  const ingredient = line && readLine(line).ingredient;
  return ingredient?.name ?? text.someIngredient;
}

function amountWords(amounts: ReadonlyMap<string, number>): string {
  return [...amounts].map(([key, kilograms]) => text.amountIs(nameOf(key), round(kilograms))).join(', ');
}

function Found({ amounts }: { readonly amounts: ReadonlyMap<string, number> }) {
  return (
    <p class="note">
      <strong>{text.foundAmounts}</strong> {amountWords(amounts)}.
    </p>
  );
}

function Infeasible({ finding }: { readonly finding: Extract<Finding, { kind: 'infeasible' }> }) {
  const { why, compromises, help } = finding;
  const nearest = compromises[0]?.words;
  return (
    <div class="note refused">
      <h3>{text.infeasible}</h3>
      <p>{why}</p>
      {compromises.length > 0 && (
        <>
          <h4>{text.nearest}</h4>
          <ul class="compromises">
            {compromises.slice(0, 2).map(({ words, amounts }) => (
              <li key={words.missed.kind}>
                {goalName(words.missed)} {goalValueText(words.missed, words.reached)}: {amountWords(amounts)}{' '}
                <button
                  type="button"
                  class="quiet small"
                  onClick={() => change(withAmounts(plan.value, amounts))}
                >
                  {text.takeNearest}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <h4>{text.wouldHelp}</h4>
      <ul>
        {nearest && <li>{adviceFor(nearest.missed, nearest.reached)}</li>}
        {help.map(({ id, name, insteadOf, kilograms }) => (
          <li key={id}>{text.insteadOf(name, insteadOf.toLowerCase(), round(kilograms))}</li>
        ))}
        {!nearest && help.length === 0 && <li>{text.changeAim}</li>}
      </ul>
    </div>
  );
}
