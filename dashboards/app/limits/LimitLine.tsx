import { useRef } from 'preact/hooks';
import type { LimitParameter } from '../../../shared/api/types.ts';
import { display } from '../../common/format.ts';
import { type Scale, valueAt, yAt } from './chartScale.ts';
import { fromShown, parameterName, stepOf, toShown, valueWords } from './showing.ts';

interface LimitLineProps {
  readonly parameter: LimitParameter;
  readonly value: number;
  readonly scale: Scale;
  /** How many tabs of other lines stand where its own would: it stands beside them. */
  readonly aside: number;
  readonly onChange: (value: number) => void;
}

/** Steps the keys of a slider move by, as its pattern asks. */
const keySteps: Readonly<Record<string, number>> = {
  ArrowUp: 1,
  ArrowRight: 1,
  ArrowDown: -1,
  ArrowLeft: -1,
  PageUp: 5,
  PageDown: -5,
};

/** A limit's line with the tab by which it is pulled: by mouse, finger or keys. */
export function LimitLine({ parameter, value, scale, aside, onChange }: LimitLineProps) {
  const { unit } = display.value;
  const held = useRef<{ readonly y: number; readonly value: number } | null>(null);
  const [least, most] = [parameter.minimum ?? 0, parameter.maximum ?? 100];
  const take = (wanted: number) => {
    const step = stepOf(parameter, unit);
    const shown = Math.round(toShown(parameter, wanted, unit) / step) * step;
    const inside = Math.min(most, Math.max(least, fromShown(parameter, shown, unit)));
    if (inside !== value) onChange(inside);
  };
  const press = (event: KeyboardEvent) => {
    const steps = keySteps[event.key];
    const end = event.key === 'Home' ? least : event.key === 'End' ? most : null;
    if (steps === undefined && end === null) return;
    event.preventDefault();
    const shown = toShown(parameter, value, unit) + (steps ?? 0) * stepOf(parameter, unit);
    take(end ?? fromShown(parameter, shown, unit));
  };
  const down = (event: PointerEvent) => {
    if (event.button !== 0) return;
    const grip = event.currentTarget as HTMLElement;
    grip.setPointerCapture(event.pointerId);
    held.current = { y: event.clientY, value };
  };
  const move = (event: PointerEvent) => {
    if (held.current === null) return;
    take(valueAt(scale, yAt(scale, held.current.value) + event.clientY - held.current.y));
  };
  const up = () => {
    held.current = null;
  };
  const words = valueWords(parameter, value, unit);
  const name = parameterName(parameter);
  return (
    <div
      class="limit-line"
      style={{ top: `${Math.max(0, Math.min(scale.height, yAt(scale, value)))}px` }}
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={up}
      onPointerCancel={up}
    >
      <div
        class="limit-grip"
        style={{ left: `${aside * 6}rem` }}
        role="slider"
        tabIndex={0}
        aria-label={name}
        aria-orientation="vertical"
        aria-valuemin={toShown(parameter, least, unit)}
        aria-valuemax={toShown(parameter, most, unit)}
        aria-valuenow={toShown(parameter, value, unit)}
        aria-valuetext={words}
        onKeyDown={press}
      >
        <span aria-hidden="true">{words}</span>
      </div>
    </div>
  );
}
