/**
 * How right the judgement is: `npm run bench:judgement [stories] [tuning]`. Simulated pile-stories, healthy and
 * troubled, of all methods, through winters and heat waves, with failing sensors; scored against what the simulated
 * pile was really like. The table is of hold-out seeds, which nobody tunes on; with `tuning` it is of the other set and
 * names the stories behind each miss.
 */
import { diagnosisTable } from './judgement/diagnosis.ts';
import { scoreStory } from './judgement/score.ts';
import { makeStories } from './judgement/stories.ts';
import { conditionTable, detailTable, silentTroubles, textTable } from './judgement/table.ts';

const count = Number(process.argv[2] ?? 260);
const set = process.argv[3] === 'tuning' ? 'tuning' : 'holdOut';

const started = performance.now();
const stories = makeStories(set, count).map(scoreStory);
const seconds = (performance.now() - started) / 1000;

console.log(
  `${count} pile-stories, ${set === 'tuning' ? 'TUNING' : 'hold-out'} seeds, ${seconds.toFixed(0)} s\n`,
);
console.log(conditionTable(stories));
console.log(`\n${textTable(stories)}`);
console.log(silentTroubles(stories));
console.log(`\n${diagnosisTable(stories)}`);
if (set === 'tuning') console.log(`\n${detailTable(stories)}`);
