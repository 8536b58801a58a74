import { YardSettings } from '../manage/YardForm.tsx';

/** The yard itself, which the printed link has made; here it can be corrected. */
export function YardStep() {
  return <YardSettings />;
}
