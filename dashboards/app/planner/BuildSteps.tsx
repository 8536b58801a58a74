import type { BuildSheet } from '../../../shared/compost/planner/buildSheet.ts';
import type { Container } from '../../../shared/compost/planner/container.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { cageWords } from './cageWords.ts';
import { air, container, plan } from './planState.ts';
import { sheetWords } from './sheetWords.ts';

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
      {litresOfWater > 0 && <li>{sheetWords.soak(round(litresOfWater))}</li>}
      {channels !== null && channels.count > 0 && (
        <li>
          {sheetWords.standPipes(
            channels.count,
            Math.round(channels.diameter * 1000),
            channels.pipeLength.toFixed(2),
            channels.words,
          )}{' '}
          {spotWords(sheet)}
        </li>
      )}
      <li>
        {sheetWords.fill(layers, Math.round(sheet.layerHeight * 100))}
        {heaviestBucketKilograms !== null && heaviestBucketKilograms > heavyBucketKilograms && (
          <strong> {sheetWords.heavyBucket(round(heaviestBucketKilograms))}</strong>
        )}
      </li>
      <li>{squeezeWords()}</li>
      {cubicMetresOver > 0.05 && <li>{sheetWords.leftOver(round(cubicMetresOver))}</li>}
      {probe && (
        <li>
          {sheetWords.probe(
            probe.depthFromWall.toFixed(2),
            probe.depthFromTop.toFixed(2),
            probe.z.toFixed(2),
          )}
          {probe.depthFromWall < 0.1 && ` ${cageWords.atWall}`}
        </li>
      )}
      {channels !== null && channels.count > 0 && pullPipesDay !== null && (
        <li>{sheetWords.pullPipes(round(pullPipesDay))}</li>
      )}
    </ol>
  );
}

function ContainerStep({ sheet }: { readonly sheet: BuildSheet }) {
  const { wallPermeable } = plan.value.container;
  const { container: room } = container.value;
  const { channels } = sheet;
  if (room === null) return null;
  return (
    <li>
      {standingWords(room)}
      {wallPermeable && channels?.clothLength != null && (
        <> {sheetWords.line(channels.clothLength.toFixed(2), channels.clothHeight!.toFixed(2))}</>
      )}
    </li>
  );
}

function standingWords({ outline, height }: Container): string {
  const { form, panelLength, baseOpen } = plan.value.container;
  const size =
    outline.kind === 'circle'
      ? sheetWords.round((2 * outline.radius).toFixed(2))
      : sheetWords.box(outline.length.toFixed(2), outline.width.toFixed(2));
  const high = height.toFixed(2);
  if (form !== 'panel') return (baseOpen ? sheetWords.setUpOnBase : sheetWords.setUp)(size, high);
  const roll = baseOpen ? sheetWords.rollPanelOnBase : sheetWords.rollPanel;
  return roll(panelLength.toFixed(2), size, high);
}

function spotWords({ channels }: BuildSheet): string {
  const rings = channels!.spots.filter(({ fromMiddle }) => fromMiddle > 0.01);
  if (rings.length === 0 || container.value.container?.outline.kind === 'circle') return '';
  const places = channels!.spots.map(({ number, along, across }) =>
    sheetWords.pipeAt(number, signed(along), signed(across)),
  );
  return sheetWords.fromMiddle(places.join('; '));
}

function signed(metres: number): string {
  const shown = metres.toFixed(2);
  return metres > 0 ? `+${shown}` : shown.replace('-0.00', '0.00');
}

/** Squeeze test in words; what a handful should do depends on how wet the pile is meant to be (common practice). */
function squeezeWords(): string {
  return plan.value.running.turnEveryDays === null ? sheetWords.squeezeWet : sheetWords.squeezeMoist;
}
