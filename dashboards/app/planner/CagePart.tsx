import type { ContainerChoice } from '../../../shared/compost/planner/plan.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { AirOptions } from './AirOptions.tsx';
import { Choice, Pick } from './Choice.tsx';
import { CutDrawing, FromAbove } from './drawings.tsx';
import { NumberField } from './NumberField.tsx';
import { air, change, container, filling, mix, plan } from './planState.ts';
import { text } from './words.ts';

function put(parts: Partial<ContainerChoice>): void {
  change({ container: { ...plan.value.container, ...parts } });
}

/** The container asked for in plain words, drawn to scale with its air. */
export function CagePart() {
  return (
    <div class="cage-columns">
      <section aria-labelledby="cage-title">
        <h2 id="cage-title">{text.cage}</h2>
        <Sizes />
        <Walls />
        <Channels />
      </section>
      <Drawn />
    </div>
  );
}

interface LengthProps {
  readonly label: string;
  readonly of: 'panelLength' | 'panelOverlap' | 'radius' | 'boxLength' | 'boxWidth' | 'height';
  readonly min: number;
  readonly max: number;
  readonly hint?: string;
}

function Length({ label, of, min, max, hint }: LengthProps) {
  return (
    <NumberField
      label={`${label}, m`}
      value={plan.value.container[of]}
      onChange={(value) => value !== null && put({ [of]: value })}
      min={min}
      max={max}
      {...(hint ? { hint } : {})}
    />
  );
}

function Sizes() {
  const { form } = plan.value.container;
  return (
    <>
      <Pick
        label="Form"
        value={form}
        choices={[
          ['panel', text.formPanel],
          ['radius', text.formRadius],
          ['box', text.formBox],
        ]}
        onChange={(chosen) => put({ form: chosen })}
      />
      <div class="numbers">
        {form === 'panel' && (
          <>
            <Length
              label="Panel length"
              of="panelLength"
              min={1}
              max={30}
              hint="The wire before it is rolled up."
            />
            <Length label="Ends overlap by" of="panelOverlap" min={0} max={0.9} />
          </>
        )}
        {form === 'radius' && <Length label="Radius (half across)" of="radius" min={0.15} max={5} />}
        {form === 'box' && (
          <>
            <Length label="Length" of="boxLength" min={0.3} max={10} />
            <Length label="Width" of="boxWidth" min={0.3} max={10} />
          </>
        )}
        <Length label="Height" of="height" min={0.3} max={3} />
      </div>
      {container.value.problem && <p class="wrong">{container.value.problem}</p>}
    </>
  );
}

function Walls() {
  const { wallPermeable, topOpen, baseOpen } = plan.value.container;
  return (
    <>
      <Choice
        question={text.wallQuestion}
        value={wallPermeable ? 'yes' : 'no'}
        choices={[
          ['yes', text.wallWire],
          ['no', text.wallBoards],
        ]}
        onChange={(value) => put({ wallPermeable: value === 'yes' })}
      />
      <Choice
        question={text.baseQuestion}
        value={baseOpen ? 'yes' : 'no'}
        choices={[
          ['yes', text.baseYes],
          ['no', text.baseNo],
        ]}
        onChange={(value) => put({ baseOpen: value === 'yes' })}
      />
      <Choice
        question={text.topQuestion}
        value={topOpen ? 'yes' : 'no'}
        choices={[
          ['yes', 'Yes, or covered loosely'],
          ['no', 'No: a lid or sheet keeps air out'],
        ]}
        onChange={(value) => put({ topOpen: value === 'yes' })}
      />
    </>
  );
}

function Channels() {
  const { channelDiameter, maximumDistance } = plan.value.container;
  return (
    <>
      <h2>{text.channels}</h2>
      <div class="numbers">
        <NumberField
          label="Pipes are, mm across"
          value={channelDiameter}
          scale={1000}
          min={20}
          max={500}
          onChange={(value) => value !== null && put({ channelDiameter: value })}
        />
        <NumberField
          label="Nothing farther from air than, m"
          value={maximumDistance}
          min={0.1}
          max={2}
          hint="0.30 m: about 1 ft, from memory, unconfirmed."
          onChange={(value) => value !== null && put({ maximumDistance: value })}
        />
      </div>
      <AirOptions onChoose={(channelCount) => put({ channelCount })} />
    </>
  );
}

function Drawn() {
  const { container: room } = container.value;
  if (room === null) return null;
  const layout = air.value;
  return (
    <section class="drawn" aria-labelledby="drawn-title">
      <h2 id="drawn-title" class="visually-hidden">
        Drawn to scale
      </h2>
      <ul class="facts-list">
        <li>{round(room.cubicMetres)} m3</li>
        {room.outline.kind === 'circle' && <li>{round(2 * room.outline.radius)} m across</li>}
        <li>{room.height.toFixed(2)} m high</li>
        <li>{room.around.toFixed(2)} m of wall</li>
      </ul>
      <FillingWords />
      {layout === null ? (
        <p class="wrong">
          No air gets in: wall, top and base are closed and there is no channel. Open one of them or stand
          pipes in it.
        </p>
      ) : (
        <>
          {layout.problem && <p class="wrong">{layout.problem}</p>}
          <div class="drawings">
            <figure>
              <figcaption>{text.plan}</figcaption>
              <FromAbove room={room} layout={layout} permeable={plan.value.container.wallPermeable} />
            </figure>
            <figure>
              <figcaption>{text.section}</figcaption>
              <CutDrawing room={room} layout={layout} permeable={plan.value.container.wallPermeable} />
            </figure>
          </div>
          <ProbeWords />
        </>
      )}
    </section>
  );
}

function FillingWords() {
  const full = filling.value;
  if (full === null || mix.value.figures?.cubicMetres == null) {
    return <p class="hint">Drawn full; plan a mix to see how far it fills.</p>;
  }
  if (full.share > 1.05) {
    return (
      <p class="wrong">
        The mix fills it and {round(full.cubicMetresOver)} m3 is left over: make less, or a bigger cage.
      </p>
    );
  }
  return (
    <p>
      The mix fills {Math.min(100, Math.round(full.share * 100))} % of it: {full.fillHeight.toFixed(2)} m high
      when fresh.
      {mix.value.figures.cubicMetres < 0.75 &&
        ' Under about 0.75 m3 a heap loses its warmth fast (extension sheets, seen second-hand: 0.77 to 1 m3 at least).'}
    </p>
  );
}

function ProbeWords() {
  const { probe, words, planDistance, channels } = air.value!;
  const ring = channels.length === 1 && container.value.container?.outline.kind === 'circle';
  const wall =
    probe.depthFromWall < 0.02
      ? 'right against the wall'
      : `${probe.depthFromWall.toFixed(2)} m in from the nearest wall`;
  return (
    <dl class="probe-words">
      <dt>Channels</dt>
      <dd>
        {words}; nothing is farther than {planDistance.toFixed(2)} m from {airSide()}, seen from above
      </dd>
      <dt>Farthest from any air</dt>
      <dd>
        {probe.distanceToAir.toFixed(2)} m, marked with a cross
        {ring && '; anywhere else at that distance from the middle is as far'}
      </dd>
      <dt>Core probe</dt>
      <dd>
        Push it straight down at the cross, {wall}, until the tip is{' '}
        <strong>{probe.depthFromTop.toFixed(2)} m below the top</strong> ({probe.z.toFixed(2)} m above the
        base). The pile settles: look after a week and push it on.
        {probe.depthFromWall < 0.1 && ` ${text.atWall}`}
      </dd>
    </dl>
  );
}

/** What the distances from above are measured to. */
function airSide(): string {
  if (!plan.value.container.wallPermeable) return 'one of them';
  return air.value!.channels.length === 0 ? 'the wall' : 'one of them or the wall';
}
