import type { AlarmReportView } from '../../../../shared/api/types.ts';
import { percent } from '../../../common/format.ts';
import { text } from './words.ts';

type Figure = AlarmReportView['figures'][number];

/** Each figure beside its aim, whether it is met, and where the aim comes from. */
export function Figures({ report: { figures } }: { readonly report: AlarmReportView }) {
  return (
    <section aria-labelledby="report-figures">
      <h3 id="report-figures">{text.figures}</h3>
      <p class="hint">{text.figuresHint}</p>
      <table class="report-table">
        <thead>
          <tr>
            <th scope="col">{text.figure}</th>
            <th scope="col">{text.value}</th>
            <th scope="col">{text.aim}</th>
            <th scope="col">{text.from}</th>
          </tr>
        </thead>
        <tbody>
          {figures.map((figure) => (
            <tr key={figure.id}>
              <th scope="row">{figure.name}</th>
              <td data-label={text.value}>{valueWords(figure)}</td>
              <td data-label={text.aim}>
                {figure.atLeast ? text.atLeast : text.atMost} {shown(figure.aim, figure.unit)}
              </td>
              <td data-label={text.from} class="report-source">
                {figure.source}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function valueWords({ value, unit, isMet }: Figure): string {
  if (value === null) return text.noValue;
  return `${shown(value, unit)}, ${isMet ? text.met : text.missed}`;
}

function shown(value: number, unit: string): string {
  if (unit === 'share') return percent(value);
  const number = Number.isInteger(value) ? String(value) : value.toFixed(1);
  return unit === '' ? number : `${number} ${unit}`;
}
