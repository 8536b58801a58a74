import { qualityReasonTexts } from '../../shared/readings/qualityReasonTexts.ts';
import type { QualityReason } from '../../shared/readings/reading.ts';

/** Why a reading is not believed, in words. */
export function reasonWords(reason: string | null): string {
  if (reason === null) return '';
  return reason in qualityReasonTexts ? qualityReasonTexts[reason as QualityReason].what : reason;
}
