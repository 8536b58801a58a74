import type { Range } from '../../../shared/compost/mix/targets.ts';
import type { Gauge } from '../../../shared/compost/planner/gauges.ts';
import type { GaugedName } from '../../../shared/compost/planner/mixRanges.ts';
import { gaugeTitles, shortVerdicts, statusWords, verdictWords } from './words.ts';

/** How a quantity is written: percent for shares, its unit for density. */
export function shownValue(name: GaugedName, value: number): string {
  if (name === 'carbonToNitrogen') return value < 10 ? value.toFixed(1) : String(Math.round(value));
  if (name === 'bulkDensity') return `${Math.round(value)} kg/m3`;
  return `${Math.round(value * 100)} %`;
}

const bare = (name: GaugedName, value: number) => shownValue(name, value).replace(/ .*/, '');

/**
 * One quantity as a peg beside a marked stick: the stick's planed part is what works, its dark part what to aim for; the
 * bar above it is how far the number may be off. Everything it shows is also said in words.
 */
export function GaugeStick({ gauge }: { readonly gauge: Gauge }) {
  const { name, reading, verdict, target } = gauge;
  return (
    <div class="gauge">
      <h3>
        {gaugeTitles[name]}
        {reading && <strong class="gauge-value">{shownValue(name, reading.value)}</strong>}
      </h3>
      {reading && verdict ? (
        <>
          <Stick gauge={gauge} />
          <p>
            <strong>{verdictWords[name][verdict]}</strong>
            {couldBeWords(gauge)}
          </p>
        </>
      ) : (
        <p class="hint">Not known: {missingWords(name)}</p>
      )}
      <p class="hint">{aimText(name, target)}</p>
      {gauge.others.length > 0 && <OtherSources gauge={gauge} />}
    </div>
  );
}

function missingWords(name: GaugedName): string {
  return name === 'carbonToNitrogen'
    ? 'nothing in the mix holds nitrogen.'
    : 'the bulk density of an ingredient is missing.';
}

function couldBeWords({ name, reading, couldBe }: Gauge): string {
  if (reading === null || couldBe === null || reading.high - reading.low < 1e-9) return '';
  const span = `${bare(name, reading.low)} to ${shownValue(name, reading.high)}`;
  const [low, high] = couldBe.map((verdict) => shortVerdicts[name][verdict]);
  const may = low === high ? '' : ` (${low} to ${high})`;
  return `; from the ingredients\u2019 ranges it may be ${span}${may}`;
}

function rangeText(name: GaugedName, { low, high }: Range): string {
  if (low === null) return `up to ${shownValue(name, high!)}`;
  if (high === null) return `above ${shownValue(name, low)}`;
  return `${bare(name, low)} to ${shownValue(name, high)}`;
}

function aimText(name: GaugedName, target: Gauge['target']): string {
  const aim = target.preferred ? `Aim for ${rangeText(name, target.preferred)}` : '';
  const works = target.acceptable ? `works ${rangeText(name, target.acceptable)}` : '';
  return `${[aim, works].filter(Boolean).join('; ')}. ${target.source} (${statusWords[target.status]}).`;
}

function OtherSources({ gauge: { name, others } }: { readonly gauge: Gauge }) {
  return (
    <details>
      <summary>What other sources say</summary>
      <ul class="sources">
        {others.map(({ target, verdict }) => (
          <li key={target.source}>
            {shortVerdicts[name][verdict]}: {aimText(name, target)}
          </li>
        ))}
      </ul>
    </details>
  );
}

const [left, right] = [6, 314];

function Stick({ gauge: { name, reading, target, scale } }: { readonly gauge: Gauge }) {
  const [from, to] = scale;
  const x = (value: number) => {
    const share = (Math.min(to, Math.max(from, value)) - from) / (to - from);
    return left + share * (right - left);
  };
  const ends = ({ low, high }: Range) => [x(low ?? from), x(high ?? to)] as const;
  const works = target.acceptable ? ends(target.acceptable) : null;
  const aim = target.preferred ? ends(target.preferred) : null;
  const peg = x(reading!.value);
  return (
    <svg class="stick" viewBox="0 0 320 62" aria-hidden="true">
      <rect x={left} y="28" width={right - left} height="14" rx="3" class="stick-wood" />
      {works && <rect x={works[0]} y="28" width={works[1] - works[0]} height="14" class="stick-works" />}
      {aim && <rect x={aim[0]} y="25" width={Math.max(3, aim[1] - aim[0])} height="20" class="stick-aim" />}
      <path
        class="stick-span"
        d={`M${x(reading!.low)} 14 V22 M${x(reading!.low)} 18 H${x(reading!.high)} M${x(reading!.high)} 14 V22`}
      />
      <path class="stick-peg" d={`M${peg - 6} 4 H${peg + 6} L${peg + 1.6} 20 V46 H${peg - 1.6} V20 Z`} />
      {marks(name, target).map(({ value, anchor }) => (
        <text key={value} x={x(value)} y="58" text-anchor={anchor}>
          {bare(name, value)}
        </text>
      ))}
    </svg>
  );
}

/** Numbers under the stick: the ends of what to aim for and, where there is room, of what works. */
function marks(
  name: GaugedName,
  target: Gauge['target'],
): { value: number; anchor: 'start' | 'middle' | 'end' }[] {
  const inner = target.preferred ?? target.acceptable;
  const found = [
    { value: inner?.low ?? null, anchor: 'end' as const },
    { value: inner?.high ?? null, anchor: 'start' as const },
    ...(target.preferred && target.acceptable && roomBeside(name)
      ? [
          { value: target.acceptable.low, anchor: 'end' as const },
          { value: target.acceptable.high, anchor: 'start' as const },
        ]
      : []),
  ];
  const seen = new Set<number>();
  return found.flatMap(({ value, anchor }) => {
    if (value === null || seen.has(value)) return [];
    seen.add(value);
    return [{ value, anchor }];
  });
}

function roomBeside(name: GaugedName): boolean {
  return name === 'carbonToNitrogen' || name === 'bulkDensity' || name === 'freeAirSpace';
}
