import type { BuildSheet } from '../../../shared/compost/planner/buildSheet.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { air, container, plan } from './planState.ts';
import { text } from './words.ts';

/** Heavier than this, a bucket should not be filled. Common practice, no source. */
const heavyBucketKilograms = 12;

/** What to do, in order. */
export function BuildSteps({ sheet }: { readonly sheet: BuildSheet }) {
  const { channels, heaviestBucketKilograms, litresOfWater, layers, cubicMetresOver } = sheet;
  const { pullPipesDay } = plan.value.running;
  const probe = air.value?.probe;
  return (
    <ol class="steps">
      <ContainerStep sheet={sheet} />
      {litresOfWater > 0 && (
        <li>
          The day before, soak the dry ingredients in some of the {round(litresOfWater)} litres: dry leaves,
          straw and chips shed water that is only poured over them. Lift them out and let them drip; use what
          drips off again.
        </li>
      )}
      {channels !== null && channels.count > 0 && (
        <li>
          Stand {channels.count === 1 ? '1 pipe' : `${channels.count} pipes`},{' '}
          {Math.round(channels.diameter * 1000)} mm across and {channels.pipeLength.toFixed(2)} m long,
          upright: {channels.words}. {spotWords(sheet)}
        </li>
      )}
      <li>
        Fill in {layers} layers of {Math.round(sheet.layerHeight * 100)} cm. Mix each one as it goes in,
        sprinkle the rest of the water on it, and do not tread it down.
        {heaviestBucketKilograms !== null && heaviestBucketKilograms > heavyBucketKilograms && (
          <strong>
            {' '}
            A full bucket of the heaviest weighs {round(heaviestBucketKilograms)} kg: fill it half.
          </strong>
        )}
      </li>
      <li>
        Squeeze a handful from several layers: {squeezeWords()} Add water, or something dry, until it does.
      </li>
      {cubicMetresOver > 0.05 && <li>About {round(cubicMetresOver)} m3 will be left over.</li>}
      {probe && (
        <li>
          Core probe: at the cross, {probe.depthFromWall.toFixed(2)} m in from the wall, tip{' '}
          {probe.depthFromTop.toFixed(2)} m below the top ({probe.z.toFixed(2)} m above the base). A second
          one 0.15 m in from the wall shows the edge. As the pile settles, push them on.
          {probe.depthFromWall < 0.1 && ` ${text.atWall}`}
        </li>
      )}
      {channels !== null && channels.count > 0 && pullPipesDay !== null && (
        <li>
          Pull the pipes on day {round(pullPipesDay)}, if the channels stand by themselves. Mind the steam.
        </li>
      )}
    </ol>
  );
}

function ContainerStep({ sheet }: { readonly sheet: BuildSheet }) {
  const { container: room } = container.value;
  const { form, panelLength, wallPermeable, baseOpen } = plan.value.container;
  if (room === null) return null;
  const size =
    room.outline.kind === 'circle'
      ? `${(2 * room.outline.radius).toFixed(2)} m across`
      : `${room.outline.length.toFixed(2)} by ${room.outline.width.toFixed(2)} m`;
  const made =
    form === 'panel' ? `Roll the ${panelLength.toFixed(2)} m panel into a ring` : 'Set up the container';
  const { channels } = sheet;
  return (
    <li>
      {made}, {size}, {room.height.toFixed(2)} m high{baseOpen ? ', on a pallet or coarse brush' : ''}.
      {wallPermeable && channels?.clothLength != null && (
        <>
          {' '}
          Line it with cloth {channels.clothLength.toFixed(2)} m long and {channels.clothHeight!.toFixed(2)} m
          high (with overlap and folds).
        </>
      )}
    </li>
  );
}

function spotWords({ channels }: BuildSheet): string {
  const rings = channels!.spots.filter(({ fromMiddle }) => fromMiddle > 0.01);
  if (rings.length === 0 || container.value.container?.outline.kind === 'circle') return '';
  const places = channels!.spots.map(
    ({ number, along, across }) => `${number}: ${signed(along)} along, ${signed(across)} across`,
  );
  return `From the middle of the floor, in m: ${places.join('; ')}.`;
}

function signed(metres: number): string {
  const shown = metres.toFixed(2);
  return metres > 0 ? `+${shown}` : shown.replace('-0.00', '0.00');
}

/** Squeeze test in words; what a handful should do depends on how wet the pile is meant to be (common practice). */
function squeezeWords(): string {
  return plan.value.running.turnEveryDays === null
    ? 'a few drops should come between the fingers.'
    : 'it should hold together and just not drip.';
}
