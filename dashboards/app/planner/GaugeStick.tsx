import type { Range } from '../../../shared/compost/mix/targets.ts';
import { type Gauge, judge } from '../../../shared/compost/planner/gauges.ts';
import type { GaugedName } from '../../../shared/compost/planner/mixRanges.ts';
import { measures } from '../../common/words.ts';
import { gaugeTitles, gaugeWords, shortVerdicts, statusWords, verdictWords } from './words.ts';

/** How a quantity is written: percent for shares, its unit for density. */
export function shownValue(name: GaugedName, value: number): string {
  if (name === 'carbonToNitrogen') return value < 10 ? value.toFixed(1) : String(Math.round(value));
  if (name === 'bulkDensity') return measures.kilogramsPerCubicMetre(Math.round(value));
  return `${Math.round(value * 100)} %`;
}

const bare = (name: GaugedName, value: number) => shownValue(name, value).replace(/ .*/, '');

/**
 * One quantity as a peg beside a marked stick: the stick's planed part is what works, its dark part what to aim for; the
 * bar above it is how far the number may be off. Everything it shows is also said in words.
 */
export function GaugeStick({ gauge }: { readonly gauge: Gauge }) {
  const { name, reading, verdict } = gauge;
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
            <strong>{verdictOf(verdictWords, gauge, reading.value)}</strong>
            {couldBeWords(gauge)}
          </p>
        </>
      ) : (
        <p class="hint">{gaugeWords.notKnown(missingWords(name))}</p>
      )}
      <Sources gauge={gauge} />
    </div>
  );
}

function missingWords(name: GaugedName): string {
  return name === 'carbonToNitrogen' ? gaugeWords.noNitrogen : gaugeWords.noDensity;
}

function couldBeWords(gauge: Gauge): string {
  const { name, reading, couldBe } = gauge;
  if (reading === null || couldBe === null || reading.high - reading.low < 1e-9) return '';
  const [low, high] = [bare(name, reading.low), shownValue(name, reading.high)];
  const [atLow, atHigh] = [reading.low, reading.high].map((value) => verdictOf(shortVerdicts, gauge, value));
  return atLow === atHigh ? gaugeWords.mayBe(low, high) : gaugeWords.mayBeJudged(low, high, atLow!, atHigh!);
}

function rangeText(name: GaugedName, { low, high }: Range): string {
  if (low === null) return gaugeWords.upTo(shownValue(name, high!));
  if (high === null) return gaugeWords.above(shownValue(name, low));
  if (low === high) return gaugeWords.about(shownValue(name, low));
  return gaugeWords.fromTo(bare(name, low), shownValue(name, high));
}

function aimText(name: GaugedName, target: Gauge['target']): string {
  const aim = target.preferred ? gaugeWords.aim(rangeText(name, target.preferred)) : '';
  const works = target.acceptable ? gaugeWords.works(rangeText(name, target.acceptable)) : '';
  return gaugeWords.from([aim, works].filter(Boolean).join('; '), target.source, statusWords[target.status]);
}

function Sources({ gauge: { name, target, others } }: { readonly gauge: Gauge }) {
  return (
    <details>
      <summary>{rangeSummary(name, target)}</summary>
      <ul class="sources">
        <li>{gaugeWords.drawn(aimText(name, target))}</li>
        {others.map(({ target: other, verdict }) => (
          <li key={other.source}>
            {gaugeWords.other(
              isPoint(other) ? gaugeWords.atStart : shortVerdicts[name][verdict],
              aimText(name, other),
            )}
          </li>
        ))}
      </ul>
    </details>
  );
}

/** One number rather than a range: nearly everything would be "off" it. */
function isPoint({ preferred }: Gauge['target']): boolean {
  return preferred !== null && preferred.low === preferred.high;
}

function rangeSummary(name: GaugedName, { preferred, acceptable }: Gauge['target']): string {
  return gaugeWords.aimFrom(rangeText(name, (preferred ?? acceptable)!));
}

/** Bulk density has two sides to "workable" and words only for the heavy one. */
function verdictOf(table: typeof verdictWords, { name, target }: Gauge, value: number): string {
  const verdict = judge(target, value);
  const isLight = name === 'bulkDensity' && value < (target.preferred?.low ?? 0);
  return table[name][isLight ? 'too low' : verdict];
}

const [left, right] = [6, 314];

function Stick({ gauge }: { readonly gauge: Gauge }) {
  const { reading, target, scale } = gauge;
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
      {marks(gauge, x).map(({ words, at }) => (
        <text key={words} x={at} y="58" text-anchor="middle">
          {words}
        </text>
      ))}
    </svg>
  );
}

/** Least room between the middles of two numbers under the stick. */
const numberRoom = 27;

interface Mark {
  readonly words: string;
  readonly at: number;
}

/** Numbers under the stick: the ends of what to aim for (as one where they are close) and, given room, of what works. */
function marks({ name, target }: Gauge, x: (value: number) => number): Mark[] {
  const { preferred, acceptable } = target;
  const mark = (value: number | null | undefined): Mark[] =>
    value == null ? [] : [{ words: bare(name, value), at: x(value) }];
  const aim = [...mark(preferred?.low), ...mark(preferred?.high)];
  const [low, high] = aim;
  const close = low && high && high.at - low.at < numberRoom;
  const placed = close ? [{ words: `${low.words}-${high.words}`, at: (low.at + high.at) / 2 }] : aim;
  for (const each of [...mark(acceptable?.low), ...mark(acceptable?.high)])
    if (placed.every(({ at }) => Math.abs(at - each.at) >= numberRoom * (close ? 1.4 : 1))) placed.push(each);
  return placed;
}
