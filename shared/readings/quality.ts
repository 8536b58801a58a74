import type { QualityInput, QualityVerdict } from './qualityInput.ts';
import { jumpFault } from './qualityJump.ts';
import { disagreesWithPair } from './qualityPair.ts';
import { contextualFault, faultValue } from './qualitySentinel.ts';
import { isStuck } from './qualityStuck.ts';
import type { QualityReason } from './reading.ts';

const good: QualityVerdict = { quality: 'good', reason: null };

/**
 * Judges one reading (house plan, section 5). `bad` can never be a measurement; `suspect` may be one, but no alarm about
 * a pile should rest on it. Bad readings of the past never count as evidence. Runs for every reading that arrives, so
 * plain comparisons come first and the history is looked at only as far as needed.
 */
export function judgeReading(input: QualityInput): QualityVerdict {
  const bad = badReason(input);
  if (bad !== null) return { quality: 'bad', reason: bad };
  const suspect = suspectReason(input);
  return suspect === null ? good : { quality: 'suspect', reason: suspect };
}

function badReason(input: QualityInput): QualityReason | null {
  const { candidate, sensor, nowMs } = input;
  if (candidate.flags?.crcFailed === true) return 'crc-failed';
  const fault = faultValue(input);
  if (fault !== null) return fault;
  const { least, most } = sensor.range;
  // Written so that NaN, which compares false with everything, is out of range too.
  if (!(candidate.rawValue >= least && candidate.rawValue <= most)) return 'out-of-range';
  if (candidate.timeMs > nowMs + sensor.futureToleranceMs) return 'future-time';
  return contextualFault(input);
}

function suspectReason(input: QualityInput): QualityReason | null {
  const jump = jumpFault(input);
  if (jump !== null) return jump;
  if (isStuck(input)) return 'stuck';
  if (disagreesWithPair(input)) return 'disagrees-with-pair';
  const { calibrationDueMs } = input.sensor;
  return calibrationDueMs !== null && input.candidate.timeMs > calibrationDueMs ? 'calibration-stale' : null;
}
