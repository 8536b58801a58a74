import { display, temperatureChange } from '../../common/format.ts';
import { heatWords } from './heatWords.ts';

const difference = (celsius: number) => `${temperatureChange(celsius, 0)} ${display.value.unit}`;

/** What the course is reckoned from, and how far such models miss. */
export function RestsOn() {
  return (
    <section aria-labelledby="rests-title">
      <h2 id="rests-title">{heatWords.restsOn}</h2>
      <ul class="rests">
        <li>{heatWords.restsModel}</li>
        <li>{heatWords.restsBand}</li>
        <li>{heatWords.restsMisses(difference(5), difference(2))}</li>
        <li>{heatWords.restsDensity}</li>
      </ul>
    </section>
  );
}
