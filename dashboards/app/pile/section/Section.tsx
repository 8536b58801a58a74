import { useMemo } from 'preact/hooks';
import type { PileFormView } from '../../../../shared/api/types.ts';
import type { PileMethod } from '../../../../shared/yard/method.ts';
import { positions } from '../../../../shared/yard/yard.ts';
import { age, temperature } from '../../../common/format.ts';
import { heatColour } from '../../../common/heatColour.ts';
import { methodWords, words } from '../../../common/words.ts';
import { reasonWords } from '../../reasonWords.ts';
import { useFetched } from '../../useFetched.ts';
import { standingWords, text } from '../words.ts';
import { Cut, whereOf } from './Cut.tsx';
import { FromAbove } from './FromAbove.tsx';
import { pileShape, spotOf } from './pileShape.ts';
import type { PointAt } from './pointsAt.ts';

interface SectionProps {
  readonly pileId: string;
  readonly method: PileMethod;
  readonly points: readonly PointAt[];
  readonly momentMs: number;
}

/** Cut and plan of the pile with its points as they stood at a moment, and the same in words. */
export function Section({ pileId, method, points, momentMs }: SectionProps) {
  // How it was planned does not change while it is looked at.
  const path = `/api/piles/${encodeURIComponent(pileId)}/form`;
  const { data } = useFetched<PileFormView>(path, () => false);
  const ordered = [...points].sort(insideOut);
  const depths = ordered.map(({ depthMetres }) => depthMetres);
  const pile = useMemo(() => pileShape(method, data?.form ?? null, depths), [method, data, depths.join()]);
  const spots = ordered.map(({ position, depthMetres }, index) => {
    const before = ordered.slice(0, index).filter((other) => other.position === position).length;
    return spotOf(pile, position, depthMetres, before);
  });
  return (
    <>
      <div class="pictures">
        <Cut pile={pile} points={ordered} spots={spots} momentMs={momentMs} />
        <FromAbove pile={pile} points={ordered} spots={spots} />
      </div>
      <HeatKey />
      <ol class="points">
        {ordered.map((point) => (
          <Said key={point.placementId} point={point} momentMs={momentMs} />
        ))}
      </ol>
      <p class="hint">
        {pile.isPlanned ? text.plannedShape : text.usualShape(methodWords[method])} {text.guessed}
      </p>
    </>
  );
}

/** Core first, then outwards; deeper before shallower. */
export function insideOut(
  one: Pick<PointAt, 'position' | 'depthMetres'>,
  other: Pick<PointAt, 'position' | 'depthMetres'>,
): number {
  const rank = ({ position }: Pick<PointAt, 'position'>) => positions.indexOf(position);
  return rank(one) - rank(other) || (other.depthMetres ?? 0) - (one.depthMetres ?? 0);
}

/** One point in words: where, what it said, how old that is, and why it is not believed when it is not. */
function Said({ point, momentMs }: { readonly point: PointAt; readonly momentMs: number }) {
  const { standing, celsius, timeMs, reason } = point;
  return (
    <li>
      {text.pointSays(whereOf(point), celsius === null ? words.noReading : temperature(celsius))}
      {timeMs !== null && <span class="hint"> {age(momentMs - timeMs)}</span>}
      {standing !== 'good' && (
        <strong>
          , {standingWords[standing]}
          {reason !== null && `: ${reasonWords(reason)}`}
        </strong>
      )}
    </li>
  );
}

const keyCelsius = [10, 25, 40, 55, 65, 75] as const;

/** Which colour is which temperature. */
function HeatKey() {
  return (
    <ul class="heat-key">
      {keyCelsius.map((celsius) => (
        <li key={celsius}>
          <svg viewBox="0 0 28 12" width="28" height="12" aria-hidden="true">
            <rect width="28" height="12" fill={heatColour(celsius)} stroke="var(--strong-line)" />
          </svg>{' '}
          {temperature(celsius, 0)}
        </li>
      ))}
    </ul>
  );
}
