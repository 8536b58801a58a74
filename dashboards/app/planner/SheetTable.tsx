import type { BuildSheet } from '../../../shared/compost/planner/buildSheet.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { measures } from '../../common/words.ts';
import { plan } from './planState.ts';
import { sheetWords } from './sheetWords.ts';
import { WideTable } from './WideTable.tsx';

const maybe = (value: number | null) => (value === null ? sheetWords.notKnown : round(value));

/** What to carry to the pile: the whole, and what goes into each layer. */
export function SheetTable({ sheet }: { readonly sheet: BuildSheet }) {
  const centimetres = Math.round(sheet.layerHeight * 100);
  return (
    <WideTable label={sheetWords.amounts}>
      <thead>
        <tr>
          <th scope="col">{sheetWords.ingredient}</th>
          <th scope="col">{sheetWords.kilograms}</th>
          <th scope="col">{sheetWords.buckets(round(plan.value.bucketLitres))}</th>
          <th scope="col">{sheetWords.perBucket}</th>
          <th scope="col">{sheetWords.eachLayer}</th>
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
                ? measures.kilograms(round(line.kilogramsPerLayer))
                : sheetWords.inBuckets(round(line.bucketsPerLayer))}
            </td>
          </tr>
        ))}
        {sheet.litresOfWater > 0 && (
          <tr>
            <th scope="row">{sheetWords.water}</th>
            <td>{round(sheet.litresOfWater)}</td>
            <td>{round(sheet.litresOfWater / plan.value.bucketLitres)}</td>
            <td>{round(plan.value.bucketLitres)}</td>
            <td>{measures.litres(round(sheet.litresPerLayer))}</td>
          </tr>
        )}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">{sheetWords.all}</th>
          <td>{round(sheet.wetKilograms)}</td>
          <td colSpan={3}>
            {sheet.cubicMetres === null
              ? sheetWords.layers(sheet.layers, centimetres)
              : sheetWords.packedLayers(round(sheet.cubicMetres), sheet.layers, centimetres)}
          </td>
        </tr>
      </tfoot>
    </WideTable>
  );
}
