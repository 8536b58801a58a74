import { gaugesOf } from '../../../shared/compost/planner/gauges.ts';
import { round } from '../../../shared/compost/planner/round.ts';
import { measures } from '../../common/words.ts';
import { AimsForm } from './AimsForm.tsx';
import { Finder } from './Finder.tsx';
import { GaugeStick, shownValue } from './GaugeStick.tsx';
import { LineCard } from './LineCard.tsx';
import { Measures } from './Measures.tsx';
import { mix, plan } from './planState.ts';
import { shortTitles, shortVerdicts, text } from './words.ts';

/** Ingredients and amounts on one side, what they come to on the other. */
export function MixPart() {
  return (
    <div class="mix-columns">
      <div>
        <section aria-labelledby="have-title">
          <h2 id="have-title">{text.ingredients}</h2>
          <Finder />
          {plan.value.lines.length === 0 && <p class="hint">{text.noLines}</p>}
          <ul class="line-list">
            {plan.value.lines.map((line) => (
              <LineCard key={line.key} line={line} />
            ))}
          </ul>
          <Measures />
        </section>
        <AimsForm />
      </div>
      <Gauges />
      <GaugeLine />
    </div>
  );
}

function Gauges() {
  const { figures } = mix.value;
  return (
    <section class="gauges" aria-labelledby="gauges-title">
      <h2 id="gauges-title">{text.gauges}</h2>
      {figures === null ? (
        <p class="hint">{text.noMix}</p>
      ) : (
        <>
          <p>
            <strong>{measures.kilograms(round(figures.wetKilograms))}</strong>
            {figures.cubicMetres !== null && text.packed(round(figures.cubicMetres))}
          </p>
          {figures.litresTooMany > 0.5 && (
            <p class="wrong">{text.tooMuchWater(round(figures.litresTooMany))}</p>
          )}
          {gaugesOf(plan.value, mix.value).map((gauge) => (
            <GaugeStick key={gauge.name} gauge={gauge} />
          ))}
        </>
      )}
    </section>
  );
}

/** On a phone the gauges are a long way down: their values in one line that stays in sight. */
function GaugeLine() {
  if (mix.value.figures === null) return null;
  const said = gaugesOf(plan.value, mix.value).flatMap(({ name, reading, verdict }) =>
    reading === null || verdict === null
      ? []
      : `${shortTitles[name]} ${shownValue(name, reading.value)} ${shortVerdicts[name][verdict]}`,
  );
  return (
    <p class="gauge-line" aria-hidden="true">
      {said.map((each) => (
        <span key={each}>{each}</span>
      ))}
    </p>
  );
}
