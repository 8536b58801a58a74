import type { LimitCondition, LimitParameter, LimitValue } from '../../../shared/api/types.ts';
import { display } from '../../common/format.ts';
import { NumberField } from '../planner/NumberField.tsx';
import { fromShown, levelOf, parameterName, toShown, unitShown, valueWords } from './showing.ts';
import { type Trial, valueIn } from './trial.ts';
import { limitWords } from './words.ts';

interface LimitNumbersProps {
  readonly condition: LimitCondition;
  readonly trial: Trial;
  readonly onChange: (parameter: LimitParameter, value: LimitValue) => void;
  readonly onMethods: () => void;
}

/** What is turned most: the level, the deadband and the two delays. The rest is folded away. */
const isUsual = (parameter: LimitParameter): boolean =>
  levelOf(parameter) !== null || /^(deadband|onDelay|offDelay|days$|budget|enabled)/.test(parameter.key);

/** The level first, then how far back it must come, then the times. */
function rankOf(parameter: LimitParameter): number {
  if (levelOf(parameter) !== null) return 0;
  return parameter.key.endsWith('DelayMinutes') ? 2 : 1;
}

/** One condition's numbers to type, each with its unit, what is allowed, and what the method has. */
export function LimitNumbers({ condition, trial, onChange, onMethods }: LimitNumbersProps) {
  const numbers = condition.parameters.filter(({ kind }) => kind === 'number');
  const usual = numbers.filter(isUsual).sort((one, other) => rankOf(one) - rankOf(other));
  const others = numbers.filter((one) => !isUsual(one));
  const enabled = condition.parameters.find(({ key }) => key === 'enabled');
  const fields = (list: readonly LimitParameter[]) =>
    list.map((parameter) => (
      <OneNumber
        key={parameter.key}
        parameter={parameter}
        value={valueIn(trial, condition.condition, parameter)}
        onChange={(value) => onChange(parameter, value)}
      />
    ));
  const changed = trial[condition.condition] !== undefined;
  return (
    <div class="limit-numbers">
      <div class="numbers">{fields(usual)}</div>
      {enabled && (
        <label class="tick">
          <input
            type="checkbox"
            checked={valueIn(trial, condition.condition, enabled) !== false}
            onChange={(event) => onChange(enabled, event.currentTarget.checked)}
          />{' '}
          {parameterName(enabled)}
        </label>
      )}
      {others.length > 0 && (
        <details>
          <summary>{limitWords.moreNumbers}</summary>
          <div class="numbers">{fields(others)}</div>
        </details>
      )}
      <p class="hint">
        {limitWords.source} {condition.source}
      </p>
      <p class="buttons">
        <button type="button" class="quiet" disabled={!changed} onClick={onMethods}>
          {limitWords.backToMethod}
        </button>
      </p>
    </div>
  );
}

interface OneNumberProps {
  readonly parameter: LimitParameter;
  readonly value: LimitValue;
  readonly onChange: (value: number | null) => void;
}

function OneNumber({ parameter, value, onChange }: OneNumberProps) {
  const { unit } = display.value;
  const shown = (canonical: number | null, otherwise: number) =>
    canonical === null ? otherwise : toShown(parameter, canonical, unit);
  const label = [parameterName(parameter), unitShown(parameter, unit)].filter(Boolean).join(', ');
  const own = limitWords.methodHas(valueWords(parameter, parameter.default, unit));
  return (
    <NumberField
      label={label}
      value={typeof value === 'number' ? toShown(parameter, value, unit) : null}
      onChange={(typed) => onChange(typed === null ? null : fromShown(parameter, typed, unit))}
      min={shown(parameter.minimum, -1e9)}
      max={shown(parameter.maximum, 1e9)}
      optional={parameter.nullable}
      hint={parameter.description === null ? own : `${parameter.description} (${own})`}
    />
  );
}
