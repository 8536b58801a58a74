import { useState } from 'preact/hooks';
import { journalValueRanges } from '../../../shared/api/constants.ts';
import type { JournalEntryView, PilePage } from '../../../shared/api/types.ts';
import type { JournalKind } from '../../../shared/yard/journal.ts';
import { api } from '../../common/api.ts';
import { dayAndTime, display, temperature } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { journalWords } from '../../common/words.ts';
import { Field, Form } from '../Form.tsx';

interface JournalProps {
  readonly page: PilePage;
  readonly onDone: () => Promise<void>;
}

/** What a thumb is most likely to report, biggest buttons first. */
const quickKinds: readonly JournalKind[] = [
  'watered',
  'turned',
  'opened',
  'channels-pulled',
  'worms-added',
  'hand-reading',
  'squeeze-test',
  'note',
];

const squeezeChoices = [
  ['1', '1 dust, falls apart'],
  ['2', '2 dry, springs open'],
  ['3', '3 holds together, no drop'],
  ['4', '4 a drop or two'],
  ['5', '5 drips'],
] as const;

/** What people did and saw, and the buttons to say so with dirty hands. */
export function Journal({ page, onDone }: JournalProps) {
  const [kind, setKind] = useState<JournalKind | null>(null);
  return (
    <section aria-labelledby="journal-title">
      <h2 id="journal-title">Journal</h2>
      {page.mayWrite && (
        <p class="buttons">
          {quickKinds.map((quick) => (
            <button
              key={quick}
              type="button"
              class="quiet"
              aria-pressed={kind === quick}
              onClick={() => setKind(kind === quick ? null : quick)}
            >
              {journalWords[quick]}
            </button>
          ))}
        </p>
      )}
      {kind && (
        <Write
          key={kind}
          kind={kind}
          pileId={page.pile.id}
          onDone={() => onDone().then(() => setKind(null))}
        />
      )}
      <ul class="log">
        {page.journal.map((entry) => (
          <li key={entry.id}>
            <time dateTime={new Date(entry.timeMs).toISOString()}>{dayAndTime(entry.timeMs)}</time>{' '}
            <strong>{journalWords[entry.kind]}</strong> {shownValue(entry)} {entry.note}{' '}
            {entry.by && <span class="hint">{entry.by}</span>}
          </li>
        ))}
      </ul>
      {page.journal.length === 0 && <p class="hint">Nothing written yet.</p>}
    </section>
  );
}

interface WriteProps {
  readonly kind: JournalKind;
  readonly pileId: string;
  readonly onDone: () => Promise<void>;
}

function Write({ kind, pileId, onDone }: WriteProps) {
  const fahrenheit = display.value.unit === 'F';
  const send = async ({ value, note }: Readonly<Record<string, string>>) => {
    const typed = value === undefined || value === '' ? null : Number(value);
    const canonical = typed !== null && kind === 'hand-reading' && fahrenheit ? (typed - 32) / 1.8 : typed;
    await api.post(`/api/piles/${encodeURIComponent(pileId)}/journal`, {
      kind,
      timeMs: serverNowMs.value,
      value: canonical,
      note: note ?? '',
    });
    await onDone();
  };
  return (
    <Form button={`Write down: ${journalWords[kind]}`} onSend={send}>
      {(wrong) => (
        <>
          <ValueField kind={kind} error={wrong('value')} />
          <Field label="Note" name="note" error={wrong('note')} required={kind === 'note'} />
        </>
      )}
    </Form>
  );
}

function ValueField({ kind, error }: { readonly kind: JournalKind; readonly error: string | null }) {
  if (kind === 'squeeze-test')
    return (
      <Field label="How wet in the fist" name="value" choices={squeezeChoices} value="3" error={error} />
    );
  if (!(kind in journalValueRanges)) return null;
  const label = kind === 'watered' ? 'Litres' : `Temperature, ${display.value.unit}`;
  return (
    <Field
      label={label}
      name="value"
      type="number"
      step="any"
      inputMode="decimal"
      required={kind === 'hand-reading'}
      error={error}
    />
  );
}

function shownValue({ kind, value }: JournalEntryView): string {
  if (value === null) return '';
  if (kind === 'hand-reading') return temperature(value);
  if (kind === 'watered') return `${value} litres`;
  return kind === 'squeeze-test' ? `${value} of 5` : String(value);
}
