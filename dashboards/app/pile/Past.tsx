import { useState } from 'preact/hooks';
import type { ExpectedView, OutlookView, PilePage } from '../../../shared/api/types.ts';
import { slowNowMs } from '../../common/live.ts';
import { useFetched } from '../useFetched.ts';
import { Chart } from './Chart.tsx';
import { aheadOf, type ChartWindow, moved, windowEndingAt } from './chartWindow.ts';
import { Outlook } from './Outlook.tsx';
import { pointsAt, pointsNow } from './section/pointsAt.ts';
import { Scrub } from './section/Scrub.tsx';
import { Section } from './section/Section.tsx';
import { useSeries } from './useSeries.ts';
import { text } from './words.ts';

const dayMs = 86_400_000;
const hourMs = 3_600_000;

/** The pile through time: pictures, slider and curves show one moment of one stretch, and what is to come. */
export function Past({ page }: { readonly page: PilePage }) {
  const { pile, status } = page;
  const now = slowNowMs.value;
  const [days, setDays] = useState(7);
  /** Null while the chart follows the present. */
  const [parked, setParked] = useState<ChartWindow | null>(null);
  const [momentMs, setMomentMs] = useState<number | null>(null);
  const { data: outlook } = useOutlook(page, status?.assessedMs ?? now);
  const { data: usual } = useFetched<ExpectedView>(
    `/api/piles/${encodeURIComponent(pile.id)}/expected`,
    () => false,
  );
  const knownAheadMs = (outlook?.forecast?.horizonDays ?? 0) * dayMs;
  const shown = parked ?? windowEndingAt(now, days, pile.startedMs, knownAheadMs);
  const { series, failure } = useSeries(pile.id, shown, parked === null, status?.assessedMs ?? null);
  const endMs = now + aheadOf(now - (parked?.fromMs ?? shown.fromMs), knownAheadMs);
  const move = (byShare: number) => {
    const to = moved(shown, byShare, pile.startedMs, endMs);
    setParked(to.toMs >= endMs - 1000 ? null : to);
  };
  const choose = (chosen: number) => {
    setDays(chosen);
    setParked(null);
  };
  const toNow = () => {
    setParked(null);
    setMomentMs(null);
  };
  // A moment outside what is shown could not be seen on the chart: time goes on, and pushes it along at the edge.
  const moment = momentMs === null ? parkedMoment(shown, parked) : Math.max(momentMs, shown.fromMs);
  const points =
    moment === null || series === null ? pointsNow(page.channels, now) : pointsAt(series, moment);
  return (
    <>
      <section aria-labelledby="where-title">
        <h2 id="where-title">{text.whereHot}</h2>
        <Section pileId={pile.id} method={pile.method} points={points} momentMs={moment ?? now} />
        <Scrub shown={shown} nowMs={now} momentMs={moment} points={points} onMoment={setMomentMs} />
      </section>
      <Chart
        page={page}
        outlook={outlook}
        expected={usual?.expected ?? null}
        {...{ days, shown, series, failure, momentMs: moment }}
        isAtNow={parked === null && moment === null}
        onChoose={choose}
        onMoved={move}
        onNow={toNow}
        onMoment={(ms) => setMomentMs(ms >= now ? null : ms)}
      />
      <Outlook page={page} outlook={outlook} />
    </>
  );
}

/** Taken back in time with no moment chosen: the end of what is shown. */
function parkedMoment(shown: ChartWindow, parked: ChartWindow | null): number | null {
  return parked === null ? null : Math.min(shown.toMs, slowNowMs.peek());
}

/** Fetched once an hour of the yard's time, and when something was done or a limit changed: a fit rests on no more. */
function useOutlook({ pile, journal, limits }: PilePage, assessedMs: number) {
  const version = `${Math.floor(assessedMs / hourMs)} ${journal.length} ${limits.current.version}`;
  const path = `/api/piles/${encodeURIComponent(pile.id)}/outlook`;
  return useFetched<OutlookView>(path, () => false, version);
}
