import type { BuildSheet } from '../../../shared/compost/planner/buildSheet.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { plan } from './planState.ts';
import { WideTable } from './WideTable.tsx';

const maybe = (value: number | null) => (value === null ? 'not known' : round(value));

/** What to carry to the pile: the whole, and what goes into each layer. */
export function SheetTable({ sheet }: { readonly sheet: BuildSheet }) {
  return (
    <WideTable label="Amounts">
      <thead>
        <tr>
          <th scope="col">Ingredient</th>
          <th scope="col">kg</th>
          <th scope="col">{round(plan.value.bucketLitres)} litre buckets</th>
          <th scope="col">kg a bucket</th>
          <th scope="col">each layer</th>
        </tr>
      </thead>
      <tbody>
        {sheet.lines.map((line) => (
          <tr key={line.name}>
            <th scope="row">{line.name}</th>
            <td>{round(line.kilograms)}</td>
            <td>{maybe(line.buckets)}</td>
            <td>{maybe(line.kilogramsPerBucket)}</td>
            <td>
              {line.bucketsPerLayer === null
                ? `${round(line.kilogramsPerLayer)} kg`
                : `${round(line.bucketsPerLayer)} buckets`}
            </td>
          </tr>
        ))}
        {sheet.litresOfWater > 0 && (
          <tr>
            <th scope="row">Water</th>
            <td>{round(sheet.litresOfWater)}</td>
            <td>{round(sheet.litresOfWater / plan.value.bucketLitres)}</td>
            <td>{round(plan.value.bucketLitres)}</td>
            <td>{round(sheet.litresPerLayer)} litres</td>
          </tr>
        )}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">All</th>
          <td>{round(sheet.wetKilograms)}</td>
          <td colSpan={3}>
            {sheet.cubicMetres === null ? '' : `about ${round(sheet.cubicMetres)} m3 packed, `}
            {sheet.layers} layers of {Math.round(sheet.layerHeight * 100)} cm
          </td>
        </tr>
      </tfoot>
    </WideTable>
  );
}
