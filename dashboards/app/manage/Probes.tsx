import { useState } from 'preact/hooks';
import type {
  LatestReading,
  PileView,
  PlacementView,
  ProbeCredential,
  ProbeView,
} from '../../../shared/api/types.ts';
import { type Position, positions, type Quantity, quantities } from '../../../shared/yard/yard.ts';
import { api } from '../../common/api.ts';
import { age, percent, temperature } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { positionWords, words } from '../../common/words.ts';
import { Field, Form } from '../Form.tsx';
import { reasonWords } from '../reasonWords.ts';
import { mayAct } from '../session.ts';
import { useFetched } from '../useFetched.ts';
import { Add } from './Add.tsx';

/** Probes: their credentials, what they send, and where each channel stands. */
export function Probes() {
  const probes = useFetched<ProbeView[]>('/api/probes', ({ kind }) => kind === 'probe' || kind === 'pile');
  const piles = useFetched<PileView[]>('/api/piles');
  const placements = useFetched<PlacementView[]>('/api/placements');
  const [made, setMade] = useState<ProbeCredential | null>(null);
  const enrol = async ({ label, id }: Readonly<Record<string, string>>) => {
    setMade(await api.post<ProbeCredential>('/api/probes', { label, ...(id ? { id } : {}) }));
    await probes.refetch();
  };
  const open = piles.data?.filter(({ endedMs }) => endedMs === null) ?? [];
  return (
    <>
      {probes.failure && <p class="wrong">{probes.failure}</p>}
      {made && <Credential made={made} />}
      {mayAct('owner') && (
        <Add title="Add a probe" open={probes.data?.length === 0}>
          <Form button="Make its credential" onSend={enrol}>
            {(wrong) => (
              <>
                <Field
                  label="Label on the probe"
                  name="label"
                  hint="What is written on its box."
                  error={wrong('label')}
                  required
                />
                <Field
                  label="Device name (optional)"
                  name="id"
                  hint="urn:dev:mac:... or urn:dev:ow:...; left empty, one is made up."
                  error={wrong('id')}
                />
              </>
            )}
          </Form>
        </Add>
      )}
      <div class="cards">
        {[...(probes.data ?? [])].sort(byLabel).map((probe) => (
          <ProbeCard
            key={probe.id}
            probe={probe}
            piles={open}
            placements={placements.data ?? []}
            onDone={placements.refetch}
          />
        ))}
      </div>
    </>
  );
}

const collator = new Intl.Collator('en', { numeric: true });
/** Newest first would jump about as labels are changed; people look for a label. */
const byLabel = (one: ProbeView, other: ProbeView) => collator.compare(one.label, other.label);

function Credential({ made }: { readonly made: ProbeCredential }) {
  const { mqtt, secret, probe } = made;
  return (
    <section class="note" aria-live="polite">
      <h2>Credential of {probe.label}</h2>
      <p>
        <strong>The password is shown only now.</strong> Put it into the probe before you leave this page.
      </p>
      <dl>
        <dt>Broker</dt>
        <dd>
          {mqtt.host}, port {mqtt.port}
          {mqtt.tls && ', TLS'}
        </dd>
        <dt>User</dt>
        <dd>{mqtt.user}</dd>
        <dt>Password</dt>
        <dd class="secret">{secret}</dd>
        <dt>Topic</dt>
        <dd>{mqtt.topic}</dd>
      </dl>
      <p>To try it from a computer with a stock MQTT client:</p>
      <pre>{mqtt.exampleCommand}</pre>
    </section>
  );
}

interface ProbeCardProps {
  readonly probe: ProbeView;
  readonly piles: readonly PileView[];
  readonly placements: readonly PlacementView[];
  readonly onDone: () => Promise<void>;
}

function ProbeCard({ probe, piles, placements, onDone }: ProbeCardProps) {
  return (
    <article class="card">
      <h2>
        {probe.label} {probe.revokedMs !== null && <span class="hint">revoked</span>}
      </h2>
      <p class="hint">{probe.id}</p>
      {probe.channels.length === 0 && <p>It has not sent anything yet.</p>}
      {probe.channels.map(({ channel, latest }) => {
        const standing = placements.find(
          (placement) => placement.channel === channel && placement.toMs === null,
        );
        return (
          <div key={channel} class="channel">
            <strong>{channel.slice(probe.id.length + 1)}</strong>:{' '}
            {latest ? <Latest latest={latest} shown={shown(latest.value, standing)} /> : words.noReading}
            {latest && <span class="hint"> {age(serverNowMs.value - latest.timeMs)}</span>}
            <Standing channel={channel} standing={standing} piles={piles} onDone={onDone} />
          </div>
        );
      })}
    </article>
  );
}

/** What a channel sent last; struck out, with why, when it is not believed. */
function Latest({ latest, shown }: { readonly latest: LatestReading; readonly shown: string }) {
  if (latest.quality === 'good') return <>{shown}</>;
  return (
    <>
      <s>{shown}</s> <span class="wrong">{reasonWords(latest.reason)}</span>
    </>
  );
}

const fractions: readonly Quantity[] = ['moisture', 'relative-humidity', 'battery'];

function shown(value: number, standing: PlacementView | undefined): string {
  if (standing?.quantity === 'temperature') return temperature(value);
  if (standing !== undefined && fractions.includes(standing.quantity)) return percent(value);
  return value.toFixed(2);
}

interface StandingProps {
  readonly channel: string;
  readonly standing: PlacementView | undefined;
  readonly piles: readonly PileView[];
  readonly onDone: () => Promise<void>;
}

/** Where a channel stands now, with the way to take it out or to put it somewhere. */
function Standing({ channel, standing, piles, onDone }: StandingProps) {
  const nowMs = () => Math.round(serverNowMs.value);
  if (standing) {
    const where = piles.find(({ id }) => id === standing.pileId)?.name ?? 'the yard';
    const takeOut = async () => {
      await api.post(`/api/placements/${encodeURIComponent(standing.id)}/end`, { toMs: nowMs() });
      await onDone();
    };
    return (
      <details>
        <summary>
          in {where}, {positionWords[standing.position]}
          {standing.depthMetres !== null && `, ${standing.depthMetres} m deep`}
        </summary>
        <Form button="It was taken out" onSend={takeOut}>
          {() => null}
        </Form>
      </details>
    );
  }
  const place = async ({ pile, position, quantity, depth }: Readonly<Record<string, string>>) => {
    const pileId = pile === '' ? null : pile;
    await api.post('/api/placements', {
      channel,
      pileId,
      position,
      quantity,
      depthMetres: depth ? Number(depth) : null,
      fromMs: nowMs(),
    });
    await onDone();
  };
  const pileChoices = [
    ...piles.map(({ id, name }) => [id, name] as const),
    ['', 'the yard itself (air)'] as const,
  ];
  return (
    <details>
      <summary>not placed yet: place it</summary>
      <Form button="It is there now" onSend={place}>
        {(wrong) => (
          <>
            <Field label="Pile" name="pile" choices={pileChoices} error={wrong('pileId')} />
            <Field
              label="Where in it"
              name="position"
              choices={positions.map((position: Position) => [position, positionWords[position]])}
              error={wrong('position')}
            />
            <Field
              label="What it measures"
              name="quantity"
              choices={quantities.map((quantity) => [quantity, quantity])}
              error={wrong('quantity')}
            />
            <Field
              label="How deep, metres"
              name="depth"
              type="number"
              step="0.01"
              min="0"
              error={wrong('depthMetres')}
            />
          </>
        )}
      </Form>
    </details>
  );
}
