/** Things that go wrong with probes, by simulated hours after the demo's start. */
export type ProbeFault =
  /** The sensor stops answering: its host library says -127. */
  | { readonly kind: 'dies'; readonly channel: string; readonly fromHours: number }
  /** The probe restarts: its first value is the power-on 85. */
  | {
      readonly kind: 'power-on';
      readonly channel: string;
      readonly atHours: number;
      readonly silentHours: number;
    }
  /** Nothing comes through (a gateway without mains). */
  | { readonly kind: 'silent'; readonly fromHours: number; readonly toHours: number };

const didNotAnswer = -127;
const powerOnValue = 85;

/** Value a channel really sends, or null when nothing is sent. Before the demo's start (negative hours) all is well. */
export function faultyValue(
  faults: readonly ProbeFault[],
  channel: string,
  value: number,
  hours: number,
  sinceLastHours: number,
): number | null {
  for (const fault of faults) {
    if (fault.kind === 'silent') {
      if (hours >= fault.fromHours && hours < fault.toHours) return null;
    } else if (fault.channel !== channel) {
    } else if (fault.kind === 'dies') {
      if (hours >= fault.fromHours) return didNotAnswer;
    } else if (hours >= fault.atHours - fault.silentHours && hours < fault.atHours) {
      return null;
    } else if (hours >= fault.atHours && hours - sinceLastHours < fault.atHours) {
      return powerOnValue;
    }
  }
  return value;
}
