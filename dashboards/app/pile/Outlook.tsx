import type { OutlookView, PilePage } from '../../../shared/api/types.ts';
import { slowNowMs } from '../../common/live.ts';
import { ceilingWords, comingWords, missingWords, trustWords } from './outlookSaid.ts';
import { text } from './words.ts';

interface OutlookProps {
  readonly page: PilePage;
  readonly outlook: OutlookView | null;
}

/** What is to come in words, with its chances, or why that cannot be said yet. */
export function Outlook({ page, outlook }: OutlookProps) {
  const forecast = outlook?.forecast ?? null;
  return (
    <section aria-labelledby="to-come-title">
      <h2 id="to-come-title">{text.toCome}</h2>
      {outlook === null && <p class="hint">{text.workingOut}</p>}
      {outlook !== null && forecast === null && <p>{missingWords(outlook, slowNowMs.value)}</p>}
      {forecast && (
        <>
          <p class="first-action">{ceilingWords(forecast, page.status?.coreCelsius ?? null)}</p>
          <ul>
            {comingWords(forecast).map((said) => (
              <li key={said}>{said}</li>
            ))}
          </ul>
          <p class="hint">{trustWords(forecast)}</p>
        </>
      )}
    </section>
  );
}
