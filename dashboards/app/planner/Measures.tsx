import { NumberField } from './NumberField.tsx';
import { change, plan } from './planState.ts';
import { text } from './words.ts';

/** The yard's own bucket and barrow, and how the mix packs. */
export function Measures() {
  const { bucketLitres, barrowLitres, packingFraction } = plan.value;
  return (
    <details>
      <summary>{text.measures}</summary>
      <div class="numbers">
        <NumberField
          label={text.bucketSize}
          value={bucketLitres}
          min={1}
          max={100}
          onChange={(value) => value !== null && change({ bucketLitres: value })}
        />
        <NumberField
          label={text.barrowSize}
          value={barrowLitres}
          min={10}
          max={1000}
          onChange={(value) => value !== null && change({ barrowLitres: value })}
        />
        <NumberField
          label={text.packing}
          value={packingFraction}
          scale={100}
          min={0}
          max={60}
          hint={text.packingHint}
          onChange={(value) => value !== null && change({ packingFraction: value })}
        />
      </div>
    </details>
  );
}
