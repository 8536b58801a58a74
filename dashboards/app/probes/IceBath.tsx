import { useState } from 'preact/hooks';
import type { CalibrationView, PlacementView, ProbeView, RecentView } from '../../../shared/api/types.ts';
import { type IceBath as Bath, iceBathStanding } from '../../../shared/compost/sensors/iceBath.ts';
import { api } from '../../common/api.ts';
import { display, temperature, temperatureChange } from '../../common/format.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { Field, Form } from '../Form.tsx';
import { Pick } from '../planner/Choice.tsx';
import { linkTo } from '../route.ts';
import { usePolled } from '../usePolled.ts';
import { SettlePlot } from './SettlePlot.tsx';
import { dueChoices, text } from './words.ts';

interface IceBathProps {
  readonly probes: readonly ProbeView[];
  readonly calibrations: readonly CalibrationView[];
  readonly placements: readonly PlacementView[];
  readonly onSaved: () => Promise<void>;
}

/** Checks a sensor in ice and water: says when it has settled, and offers the offset only when that makes sense. */
export function IceBath({ probes, calibrations, placements, onSaved }: IceBathProps) {
  const recent = usePolled<RecentView>('/api/channels/recent?minutes=30');
  const [picked, setPicked] = useState<string | null>(null);
  const [sinceMs, setSince] = useState<number | null>(null);
  const [isSaved, setSaved] = useState(false);
  if (recent.data === null)
    return recent.failure ? <p class="wrong">{recent.failure}</p> : <p>{text.waiting}</p>;
  const { nowMs } = recent.data;
  const sensors = recent.data.channels.filter(
    ({ quantity, points }) => quantity === 'temperature' && points.length > 0,
  );
  const sensor = sensors.find(({ channel }) => channel === picked) ?? sensors[0];
  if (sensor === undefined) return <p>{text.noTemperature}</p>;
  const points = sensor.points
    .filter(({ timeMs, quality }) => quality !== 'bad' && timeMs >= (sinceMs ?? nowMs))
    .map(({ timeMs, rawValue }) => ({ timeMs, rawCelsius: rawValue }));
  const bath = iceBathStanding(points, nowMs);
  const gain = calibrations.find(({ channel }) => channel === sensor.channel)?.gain ?? 1;
  const pileId = placements.find(({ channel, toMs }) => toMs === null && channel === sensor.channel)?.pileId;
  const begin = (channel: string) => {
    setPicked(channel);
    setSince(null);
    setSaved(false);
  };
  const save = async ({ months }: Readonly<Record<string, string>>) => {
    if (bath.kind !== 'settled') return;
    // What is stored is raw x gain + offset: whatever the gain, ice must come out at 0.
    const offset = Math.round(-bath.rawCelsius * gain * 10_000) / 10_000;
    const dueMs = months === '0' ? null : nowMs + Number(months) * monthMs;
    await api.put('/api/calibrations', { channel: sensor.channel, gain, offset, calibratedMs: nowMs, dueMs });
    setSaved(true);
    await onSaved();
  };
  return (
    <div class="ice">
      <p>{text.iceHow}</p>
      <p class="hint">{text.hotStem}</p>
      <Pick
        label={text.iceChoose}
        value={sensor.channel}
        choices={sensors.map(({ channel, probeId }) => [channel, sensorName(channel, probeId, probes)])}
        onChange={begin}
      />
      {pileId && (
        <p class="wrong-note">
          {text.icePlaced} <a href={linkTo('piles', pileId)}>{text.icePlacedLink}</a>
        </p>
      )}
      {sinceMs === null ? (
        <button type="button" onClick={() => setSince(nowMs)}>
          {text.iceStart}
        </button>
      ) : isSaved ? (
        <p class="note" role="status">
          <strong>{text.iceSaved}</strong>{' '}
          <button type="button" class="quiet" onClick={() => begin(sensor.channel)}>
            {text.iceAnother}
          </button>
        </p>
      ) : (
        <Standing bath={bath} points={points} nowMs={nowMs} sinceMs={sinceMs}>
          <Form button={text.iceSave} onSend={save}>
            {(wrong) => (
              <Field
                label={text.iceDue}
                name="months"
                value="12"
                choices={dueChoices}
                error={wrong('dueMs')}
              />
            )}
          </Form>
        </Standing>
      )}
    </div>
  );
}

const monthMs = 30 * 86_400_000;

interface StandingProps {
  readonly bath: Bath;
  readonly points: readonly { readonly timeMs: number; readonly rawCelsius: number }[];
  readonly nowMs: number;
  readonly sinceMs: number;
  /** What is offered once it has settled. */
  readonly children: preact.ComponentChildren;
}

function Standing({ bath, points, nowMs, sinceMs, children }: StandingProps) {
  return (
    <section class={`card bath bath-${bath.kind}`}>
      <div role="status">
        {'rawCelsius' in bath && (
          <p class="bath-now">
            <Sentence
              of={text.rawNow}
              with={{ reading: <strong>{temperature(bath.rawCelsius, 2)}</strong> }}
            />{' '}
            <span class="hint">{text.beforeOffset}</span>
          </p>
        )}
        <p>
          <BathMark kind={bath.kind} /> <strong>{stateWords[bath.kind]}</strong>{' '}
          {'spreadCelsius' in bath && (
            <span class="hint">
              {text.varied(`${temperatureChange(bath.spreadCelsius, 2)} ${display.value.unit}`)}
            </span>
          )}
        </p>
        {bath.kind === 'settled' && (
          <>
            <p>{bath.withinTolerance ? text.iceGood : text.iceOut}</p>
            <p>
              <Sentence
                of={text.iceAdd}
                with={{ offset: <strong>{signedChange(bath.offsetCelsius)}</strong> }}
              />
            </p>
          </>
        )}
      </div>
      <SettlePlot points={points} fromMs={sinceMs} nowMs={nowMs} />
      {bath.kind === 'settled' && children}
    </section>
  );
}

const stateWords: Readonly<Record<Bath['kind'], string>> = {
  'nothing-yet': text.iceNothing,
  wait: text.iceWait,
  'still-moving': text.iceMoving,
  'not-ice': text.iceFar,
  settled: text.iceSettled,
};

function signedChange(celsius: number): string {
  return `${celsius < 0 ? '\u2212' : '+'}${temperatureChange(Math.abs(celsius), 2)} ${display.value.unit}`;
}

/** The state by shape: a dot for waiting, a slope for moving, a level line for settled, a cross for what cannot be. */
function BathMark({ kind }: { readonly kind: Bath['kind'] }) {
  const shape = {
    'nothing-yet': 'M10 12h4',
    wait: 'M10 12h4',
    'still-moving': 'M4 5L20 19',
    'not-ice': 'M5 5L19 19M19 5L5 19',
    settled: 'M3 9h18M3 15h18',
  }[kind];
  return (
    <svg class="bath-mark" viewBox="0 0 24 24" aria-hidden="true">
      <path d={shape} fill="none" stroke="currentColor" stroke-width="3" stroke-linecap="round" />
    </svg>
  );
}

function sensorName(channel: string, probeId: string, probes: readonly ProbeView[]): string {
  const label = probes.find(({ id }) => id === probeId)?.label ?? probeId;
  return `${label} ${channel.slice(probeId.length + 1)}`;
}
