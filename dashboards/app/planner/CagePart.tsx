import type { ContainerChoice } from '../../../shared/compost/planner/plan.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { Sentence } from '../../common/Sentence.tsx';
import { measures } from '../../common/words.ts';
import { AirOptions } from './AirOptions.tsx';
import { Choice, Pick } from './Choice.tsx';
import { cageWords as text } from './cageWords.ts';
import { CutDrawing, FromAbove } from './drawings.tsx';
import { NumberField } from './NumberField.tsx';
import { air, change, container, filling, mix, plan } from './planState.ts';

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
      label={label}
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
        label={text.form}
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
            <Length label={text.panelLength} of="panelLength" min={1} max={30} hint={text.panelHint} />
            <Length label={text.overlap} of="panelOverlap" min={0} max={0.9} />
          </>
        )}
        {form === 'radius' && <Length label={text.radius} of="radius" min={0.15} max={5} />}
        {form === 'box' && (
          <>
            <Length label={text.length} of="boxLength" min={0.3} max={10} />
            <Length label={text.width} of="boxWidth" min={0.3} max={10} />
          </>
        )}
        <Length label={text.height} of="height" min={0.3} max={3} />
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
          ['yes', text.topYes],
          ['no', text.topNo],
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
          label={text.pipesAcross}
          value={channelDiameter}
          scale={1000}
          min={20}
          max={500}
          onChange={(value) => value !== null && put({ channelDiameter: value })}
        />
        <NumberField
          label={text.nothingFarther}
          value={maximumDistance}
          min={0.1}
          max={2}
          hint={text.fartherHint}
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
        {text.drawn}
      </h2>
      <ul class="facts-list">
        <li>{measures.cubicMetres(round(room.cubicMetres))}</li>
        {room.outline.kind === 'circle' && <li>{text.across(round(2 * room.outline.radius))}</li>}
        <li>{text.high(room.height.toFixed(2))}</li>
        <li>{text.ofWall(room.around.toFixed(2))}</li>
      </ul>
      <FillingWords />
      {layout === null ? (
        <p class="wrong">{text.airless}</p>
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
    return <p class="hint">{text.drawnFull}</p>;
  }
  if (full.share > 1.05) {
    return <p class="wrong">{text.tooMuch(round(full.cubicMetresOver))}</p>;
  }
  return (
    <p>
      {text.fills(Math.min(100, Math.round(full.share * 100)), full.fillHeight.toFixed(2))}
      {mix.value.figures.cubicMetres < 0.75 && ` ${text.tooLittle}`}
    </p>
  );
}

function ProbeWords() {
  const { probe, words, planDistance, channels } = air.value!;
  const ring = channels.length === 1 && container.value.container?.outline.kind === 'circle';
  const deep = {
    depth: <strong>{text.belowTop(probe.depthFromTop.toFixed(2))}</strong>,
    above: probe.z.toFixed(2),
  };
  return (
    <dl class="probe-words">
      <dt>{text.channelsTerm}</dt>
      <dd>{text.nothingFartherFrom(words, planDistance.toFixed(2), airSide())}</dd>
      <dt>{text.farthestTerm}</dt>
      <dd>{(ring ? text.farthestRing : text.farthest)(probe.distanceToAir.toFixed(2))}</dd>
      <dt>{text.probeTerm}</dt>
      <dd>
        {probe.depthFromWall < 0.02 ? (
          <Sentence of={text.pushAtWall} with={deep} />
        ) : (
          <Sentence of={text.pushInFromWall} with={{ ...deep, fromWall: probe.depthFromWall.toFixed(2) }} />
        )}
        {probe.depthFromWall < 0.1 && ` ${text.atWall}`}
      </dd>
    </dl>
  );
}

/** What the distances from above are measured to. */
function airSide(): string {
  if (!plan.value.container.wallPermeable) return text.airOfChannels;
  return air.value!.channels.length === 0 ? text.airOfWall : text.airOfBoth;
}
