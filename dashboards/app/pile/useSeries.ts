import { useEffect, useRef, useState } from 'preact/hooks';
import type { SeriesView } from '../../../shared/api/types.ts';
import { api } from '../../common/api.ts';
import { serverNowMs } from '../../common/live.ts';
import { failureText } from '../session.ts';
import { type ChartWindow, fetchedAround, isCovered, stepFor } from './chartWindow.ts';

const hourMs = 3_600_000;
/** Points a channel, over three times what is shown. */
const mostPoints = 3000;

/** Curves around the shown window; fetched again when it leaves what is there, changes its step, or the pile was judged. */
export function useSeries(
  pileId: string,
  shown: ChartWindow,
  isFollowing: boolean,
  assessedMs: number | null,
) {
  const [series, setSeries] = useState<SeriesView | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const nowMs = serverNowMs.peek();
  const step = stepFor({ fromMs: shown.fromMs, toMs: Math.min(shown.toMs, nowMs) });
  const covered = series !== null && series.step === step && isCovered(shown, series, nowMs);
  // New readings only matter to who looks at the newest.
  const width = Math.round((shown.toMs - shown.fromMs) / hourMs);
  const why = isFollowing ? `${width} h, judged ${assessedMs}` : covered ? 'covered' : `from ${shown.fromMs}`;
  // One fetch at a time: where the pile is judged more often than an answer takes, none would ever be shown.
  const isBusy = useRef(false);
  const isWantedAgain = useRef(false);
  const [turn, setTurn] = useState(0);
  useEffect(() => {
    if (why === 'covered') return;
    if (isBusy.current) {
      isWantedAgain.current = true;
      return;
    }
    isBusy.current = true;
    const { fromMs, toMs } = fetchedAround(shown, serverNowMs.peek());
    const path = `/api/piles/${encodeURIComponent(pileId)}/series?fromMs=${fromMs}&toMs=${toMs}&step=${step}&maxPoints=${mostPoints}&quality=all`;
    const done = () => {
      isBusy.current = false;
      if (isWantedAgain.current) setTurn((count) => count + 1);
      isWantedAgain.current = false;
    };
    void api
      .get<SeriesView>(path)
      .then(
        (answer) => {
          setSeries(answer);
          setFailure(null);
        },
        (error) => setFailure(failureText(error)),
      )
      .then(done);
  }, [pileId, step, why, turn]);
  return { series, failure };
}
