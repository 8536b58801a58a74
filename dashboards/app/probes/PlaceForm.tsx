import { useState } from 'preact/hooks';
import type { PileView } from '../../../shared/api/types.ts';
import { type Position, positions, type Quantity, quantities } from '../../../shared/yard/yard.ts';
import { api } from '../../common/api.ts';
import { serverNowMs } from '../../common/live.ts';
import { positionWords } from '../../common/words.ts';
import { Field, Form } from '../Form.tsx';
import { positionHints, quantityWords, text } from './words.ts';

interface PlaceFormProps {
  readonly channel: string;
  readonly quantity: Quantity;
  /** Open piles, those most likely first. */
  readonly piles: readonly PileView[];
  readonly onDone: () => Promise<void>;
}

/** Says where a channel stands from now on. */
export function PlaceForm({ channel, quantity, piles, onDone }: PlaceFormProps) {
  const [position, setPosition] = useState<Position>('core');
  const place = async (fields: Readonly<Record<string, string>>) => {
    await api.post('/api/placements', {
      channel,
      pileId: fields.pile === '' ? null : fields.pile,
      position,
      quantity: fields.quantity,
      depthMetres: fields.depth ? Number(fields.depth) : null,
      fromMs: Math.round(serverNowMs.value),
    });
    await onDone();
  };
  const pileChoices = [...piles.map(({ id, name }) => [id, name] as const), ['', text.yardItself] as const];
  return (
    <Form button={text.itIsThere} onSend={place}>
      {(wrong) => (
        <>
          <Field label={text.pile} name="pile" choices={pileChoices} error={wrong('pileId')} />
          <fieldset class="positions">
            <legend>{text.where}</legend>
            {positions.map((one) => (
              <label key={one}>
                <input
                  type="radio"
                  name="position"
                  value={one}
                  checked={one === position}
                  onChange={() => setPosition(one)}
                />
                <span>
                  <strong>{positionWords[one]}</strong> <span class="hint">{positionHints[one]}</span>
                </span>
              </label>
            ))}
          </fieldset>
          <Field
            label={text.measures}
            name="quantity"
            value={quantity}
            choices={quantities.map((one) => [one, quantityWords[one]])}
            error={wrong('quantity')}
          />
          <Field
            label={text.depth}
            name="depth"
            type="number"
            step="0.01"
            min="0"
            inputMode="decimal"
            hint={text.depthHint}
            error={wrong('depthMetres')}
          />
        </>
      )}
    </Form>
  );
}
