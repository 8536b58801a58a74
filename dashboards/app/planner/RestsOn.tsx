import { display, temperatureChange } from '../../common/format.ts';
import { text } from './words.ts';

/** What the course is reckoned from, and how far such models miss. */
export function RestsOn() {
  return (
    <section aria-labelledby="rests-title">
      <h2 id="rests-title">{text.restsOn}</h2>
      <ul class="rests">
        <li>
          A heat and water model of core, shoulder and edge, with your container, its air, your watering and
          steady weather. C:N stands for how quickly the mix works: that rule of thumb is ours, without a
          source.
        </li>
        <li>
          The band is sixteen runs: the plan as typed, and fifteen with rates, moisture, bulk density, packing
          and airflow moved within what such numbers usually miss. It is not a measured error.
        </li>
        <li>
          Models miss. None of those in a published review (Mason 2006, abstract seen) came within{' '}
          {temperatureChange(5, 0)} {display.value.unit} at the peak and {temperatureChange(2, 0)}{' '}
          {display.value.unit} on average. Use it to choose between plans; let a probe tell you what the pile
          does.
        </li>
        <li>
          Bulk density moves the course most, and books know it least. Weigh a full bucket of each ingredient
          and type it in.
        </li>
      </ul>
    </section>
  );
}
