import { buildOf } from '../../../shared/compost/planner/buildOf.ts';
import { recipeNote } from '../../../shared/compost/planner/recipeNote.ts';
import { buildCautions } from '../../../shared/compost/planner/safety.ts';
import { day } from '../../common/format.ts';
import { serverNowMs } from '../../common/live.ts';
import { mayAct, session } from '../session.ts';
import { BuildSteps } from './BuildSteps.tsx';
import { cageWords } from './cageWords.ts';
import { CutDrawing, FromAbove } from './drawings.tsx';
import { air, container, mix, plan, sheet } from './planState.ts';
import { SheetTable } from './SheetTable.tsx';
import { StartPile } from './StartPile.tsx';
import { sheetWords } from './sheetWords.ts';
import { text } from './words.ts';

/** The sheet that goes out to the yard, and the button that starts the pile from it. */
export function BuildPart() {
  const made = sheet.value;
  const { container: room } = container.value;
  if (made === null || room === null || mix.value.figures === null)
    return <p class="note">{sheetWords.needsMix}</p>;
  const note = recipeNote(plan.value.name, made, mix.value.figures, air.value);
  return (
    <>
      <article class="sheet" aria-labelledby="sheet-title">
        <h2 id="sheet-title">{sheetWords.build(plan.value.name.trim() || text.unnamed)}</h2>
        <p class="hint">{sheetWords.madeOn(session.value?.yard?.name ?? '', day(serverNowMs.value))}</p>
        {[...mix.value.problems.values()].map((problem) => (
          <p key={problem} class="wrong">
            {sheetWords.leftOut(problem)}
          </p>
        ))}
        <SheetTable sheet={made} />
        <div class="sheet-body">
          <div>
            <BuildSteps sheet={made} />
            <h3>{sheetWords.cautions}</h3>
            <ul class="mind">
              {buildCautions.map(({ about, words }) => (
                <li key={about}>
                  <strong>{about}.</strong> {words}
                </li>
              ))}
            </ul>
          </div>
          {air.value && (
            <div class="drawings">
              <figure>
                <figcaption>{cageWords.plan}</figcaption>
                <FromAbove room={room} layout={air.value} permeable={plan.value.container.wallPermeable} />
              </figure>
              <figure>
                <figcaption>{cageWords.section}</figcaption>
                <CutDrawing room={room} layout={air.value} permeable={plan.value.container.wallPermeable} />
              </figure>
            </div>
          )}
        </div>
      </article>
      <p class="buttons no-print">
        <button type="button" class="quiet" onClick={() => print()}>
          {sheetWords.print}
        </button>
      </p>
      {mayAct('keeper') && <StartPile note={note} build={buildOf(plan.value.container, mix.value.figures)} />}
    </>
  );
}
