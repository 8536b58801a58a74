import { route } from '../route.ts';
import { RecordList } from './RecordList.tsx';
import { RecordScreen } from './RecordScreen.tsx';

/** `#/records`: all piles; `#/records/PILE`: one by the yard's rule; `#/records/PILE/RULE`: by another. */
export function Records() {
  const [, pileId, ruleId = null] = route.value;
  return pileId ? <RecordScreen key={pileId} pileId={pileId} ruleId={ruleId} /> : <RecordList />;
}
