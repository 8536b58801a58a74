import type { Banded } from '../../shared/compost/forecast/banded.ts';
import { forecastPile, type PileForecast, usualRequest } from '../../shared/compost/forecast/forecastPile.ts';
import type { RandomSource } from '../../shared/compost/forecast/random.ts';
import { fitFirstDays, type SimulatedPile, simulatedPile } from './simulatedRecord.ts';

/** How one figure of a forecast did over many piles. */
export interface Score {
  readonly figure: string;
  readonly piles: number;
  /** Share of piles whose truth lay within the 80 % band. */
  readonly coverage: number;
  readonly medianError: number;
  readonly medianWidth: number;
}

/** What is scored and over how many piles. */
export interface ScoreRequest {
  readonly piles: number;
  readonly fromDays: readonly number[];
  readonly horizonDays: number;
  readonly draws: number;
}

type Judged = Map<string, { band: Banded; truth: number }[]>;

const median = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

/** Mean of the air over the day around an hour: what a weather outlook could know. */
function dailyAir(pile: SimulatedPile, hour: number): number {
  const air = pile.course.series.airCelsius.subarray(Math.max(0, hour - 12), hour + 12);
  return air.reduce((sum, value) => sum + value, 0) / air.length;
}

/** What truly came: days above 55 C, and days until the core stays within `near` of the day's air for half a day. */
function truthOf(pile: SimulatedPile, fromHour: number, hours: number, near: number) {
  const { coreCelsius } = pile.course.series;
  let [above, run, nearDays] = [0, 0, hours / 24];
  for (let hour = 0; hour < hours; hour += 1) {
    if (coreCelsius[fromHour + hour]! >= 55) above += 1 / 24;
    run = coreCelsius[fromHour + hour]! <= dailyAir(pile, fromHour + hour) + near ? run + 1 : 0;
    if (run === 12) nearDays = Math.min(nearDays, (hour - 11) / 24);
  }
  return { above, nearDays };
}

function judge(judged: Judged, figure: string, band: Banded, truth: number): void {
  judged.set(figure, [...(judged.get(figure) ?? []), { band, truth }]);
}

function judgePath(judged: Judged, day: number, pile: SimulatedPile, { path }: PileForecast): void {
  for (const ahead of [1, 3, 7, 20]) {
    const row = ahead * 24 - 1;
    const band = { low: path.low[row]!, middle: path.middle[row]!, high: path.high[row]! };
    judge(
      judged,
      `from day ${day}: core in ${ahead} d, C`,
      band,
      pile.course.series.coreCelsius[day * 24 + row]!,
    );
  }
}

/** Scores forecasts on piles drawn apart from what the forecast assumes. Repeatable for the same random stream. */
export function scoreForecasts(random: RandomSource, request: ScoreRequest): Score[] {
  const judged: Judged = new Map();
  const lastDay = Math.max(...request.fromDays) + request.horizonDays + 1;
  for (let count = 0; count < request.piles; count += 1) {
    const pile = simulatedPile(random, lastDay, 60);
    for (const day of request.fromDays) {
      const { horizonDays, draws } = request;
      const airCelsius = (ahead: number) => dailyAir(pile, Math.round((day + ahead) * 24));
      const forecast = forecastPile(fitFirstDays(pile, day), {
        ...usualRequest,
        horizonDays,
        draws,
        random,
        airCelsius,
      });
      const truth = truthOf(pile, day * 24, horizonDays * 24, usualRequest.nearAirKelvin);
      judgePath(judged, day, pile, forecast);
      judge(judged, `from day ${day}: days above 55 C`, forecast.daysAbove55, truth.above);
      judge(judged, `from day ${day}: days to near air`, forecast.nearAir.days, truth.nearDays);
    }
  }
  return [...judged].map(([figure, cases]) => ({
    figure,
    piles: cases.length,
    coverage:
      cases.filter(({ band, truth }) => truth >= band.low - 1e-6 && truth <= band.high + 1e-6).length /
      cases.length,
    medianError: median(cases.map(({ band, truth }) => Math.abs(band.middle - truth))),
    medianWidth: median(cases.map(({ band }) => band.high - band.low)),
  }));
}

/** A table a person can read. */
export function scoreTable(scores: readonly Score[]): string {
  const line = (score: Score) =>
    `${score.figure.padEnd(34)} coverage of the 80 % band ${score.coverage.toFixed(2)}   median error ${score.medianError
      .toFixed(1)
      .padStart(5)}   median width ${score.medianWidth.toFixed(1).padStart(5)}`;
  return scores.map(line).join('\n');
}
