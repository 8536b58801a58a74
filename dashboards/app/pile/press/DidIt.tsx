import { useState } from 'preact/hooks';
import { deepestHandMetres, journalValueRanges } from '../../../../shared/api/constants.ts';
import type { JournalKind } from '../../../../shared/yard/journal.ts';
import { display } from '../../../common/format.ts';
import { journalWords, measures } from '../../../common/words.ts';
import { Field, Form } from '../../Form.tsx';
import { text } from '../words.ts';
import { writeDown } from './deeds.ts';
import { Photo } from './Photo.tsx';
import { refuseField } from './refuseField.ts';
import { Sheet } from './Sheet.tsx';
import { pressWords } from './words.ts';

/** What can be said with one press, and what wants a number, words or a picture first. */
export const deedKinds = [
  'watered',
  'turned',
  'opened',
  'channels-pulled',
  'worms-added',
  'hand-reading',
  'squeeze-test',
  'photo',
  'note',
] as const;
export type DeedKind = (typeof deedKinds)[number];

const atOnce: readonly DeedKind[] = ['turned', 'opened', 'channels-pulled', 'worms-added'];

export const deedWords = (kind: DeedKind) => (kind === 'photo' ? pressWords.photo : journalWords[kind]);

interface DidItProps {
  readonly pileId: string;
  /** `menu` lists everything. */
  readonly kind: DeedKind | 'menu';
  readonly onKind: (kind: DeedKind | 'menu' | null) => void;
}

/** Begins a deed: those that want nothing more are written down at once, and can be undone. */
export function beginDeed(pileId: string, kind: DeedKind): DeedKind | null {
  if (!atOnce.includes(kind)) return kind;
  void writeDown(pileId, { kind: kind as JournalKind });
  return null;
}

/** The sheet behind "Did it". */
export function DidIt({ pileId, kind, onKind }: DidItProps) {
  const close = () => onKind(null);
  const write = (...written: Parameters<typeof writeDown> extends [string, ...infer Rest] ? Rest : never) => {
    void writeDown(pileId, ...written);
    close();
  };
  return (
    <Sheet title={kind === 'menu' ? pressWords.whatDid : deedWords(kind)} onClose={close}>
      {kind === 'menu' && (
        <div class="big-buttons">
          {deedKinds.map((each) => (
            <button key={each} type="button" class="quiet" onClick={() => onKind(beginDeed(pileId, each))}>
              {deedWords(each)}
            </button>
          ))}
        </div>
      )}
      {kind === 'watered' && <Watered onWrite={write} />}
      {kind === 'hand-reading' && <HandReading onWrite={write} />}
      {kind === 'squeeze-test' && <Squeeze onWrite={write} />}
      {kind === 'note' && <Note onWrite={write} />}
      {kind === 'photo' && <Photo onTaken={(photo, note) => write({ kind: 'note', note }, photo)} />}
    </Sheet>
  );
}

interface WriteProps {
  readonly onWrite: (written: Parameters<typeof writeDown>[1]) => void;
}

const usualLitres = [5, 10, 20, 50, 100] as const;

function Watered({ onWrite }: WriteProps) {
  return (
    <>
      <div class="big-buttons">
        {usualLitres.map((litres) => (
          <button
            key={litres}
            type="button"
            class="quiet"
            onClick={() => onWrite({ kind: 'watered', value: litres })}
          >
            {measures.litres(litres)}
          </button>
        ))}
        <button type="button" class="quiet" onClick={() => onWrite({ kind: 'watered' })}>
          {pressWords.notMeasured}
        </button>
      </div>
      <Form
        button={pressWords.writeWatered}
        onSend={async ({ value, note }) =>
          onWrite({ kind: 'watered', value: numberIn('watered', value), note: note ?? '' })
        }
      >
        {(wrong) => (
          <>
            <Field label={pressWords.litres} name="value" {...decimal} error={wrong('value')} required />
            <Field label={pressWords.note} name="note" />
          </>
        )}
      </Form>
    </>
  );
}

const decimal = { type: 'number', step: 'any', inputMode: 'decimal' } as const;
const depthChoices = [
  ['', pressWords.depthNotSaid],
  ...[0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1].map(
    (metres) => [String(metres), pressWords.deep(metres)] as const,
  ),
] as const;

function HandReading({ onWrite }: WriteProps) {
  const send = async ({ value, depth, note }: Readonly<Record<string, string>>) =>
    onWrite({
      kind: 'hand-reading',
      value: numberIn('hand-reading', value),
      depthMetres: depth === undefined || depth === '' ? null : Math.min(deepestHandMetres, Number(depth)),
      note: note ?? '',
    });
  return (
    <Form button={pressWords.writeReading} onSend={send}>
      {(wrong) => (
        <>
          <Field
            label={pressWords.temperature(display.value.unit)}
            name="value"
            {...decimal}
            error={wrong('value')}
            required
          />
          <Field label={pressWords.howDeep} name="depth" choices={depthChoices} value="0.6" />
          <Field label={pressWords.note} name="note" />
        </>
      )}
    </Form>
  );
}

function Squeeze({ onWrite }: WriteProps) {
  return (
    <div class="big-buttons one-column">
      {pressWords.squeezes.map((words, index) => (
        <button
          key={words}
          type="button"
          class="quiet"
          onClick={() => onWrite({ kind: 'squeeze-test', value: index + 1 })}
        >
          {pressWords.squeezeIs(index + 1, words)}
        </button>
      ))}
    </div>
  );
}

function Note({ onWrite }: WriteProps) {
  return (
    <Form
      button={pressWords.writeNote}
      onSend={async ({ note }) => onWrite({ kind: 'note', note: note ?? '' })}
    >
      {() => <Field label={pressWords.note} name="note" hint={text.noteHint} required />}
    </Form>
  );
}

/** A typed number in canonical units. @throws Refusal beside the field when it cannot be. */
function numberIn(kind: keyof typeof journalValueRanges, typed: string | undefined): number {
  const { minimum, maximum, unit } = journalValueRanges[kind];
  const isFahrenheit = unit === 'C' && display.value.unit === 'F';
  const value = isFahrenheit ? (Number(typed) - 32) / 1.8 : Number(typed);
  if (value >= minimum && value <= maximum) return value;
  const shown = (number: number) => (isFahrenheit ? number * 1.8 + 32 : number);
  const most = unit === 'C' ? `${shown(maximum)} ${display.value.unit}` : measures.litres(shown(maximum));
  return refuseField('value', pressWords.allowed(shown(minimum), most));
}

export const useDeed = () => useState<DeedKind | 'menu' | null>(null);
