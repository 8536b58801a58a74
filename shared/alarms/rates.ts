const hoursPerDay = 24;
const tenMinutesPerHour = 6;

/** Mean alarm rates of one person's load, in the three forms the alarm standards quote. */
export interface AlarmRates {
  readonly perDay: number;
  readonly perHour: number;
  readonly perTenMinutes: number;
}

/** Rates from a mean number of alarms a day: 144 a day is 6 an hour, 1 per ten minutes. */
export function alarmRatesFromDay(perDay: number): AlarmRates {
  const perHour = perDay / hoursPerDay;
  return { perDay, perHour, perTenMinutes: perHour / tenMinutesPerHour };
}

/**
 * Rates a control-room operator can bear (ISA-18.2 section 16.4, IEC 62682; from public restatements, the standards are
 * paywalled). They are about one person's attention at a desk; a grower with a phone should see far fewer.
 */
export const bearableRates = {
  veryLikelyAcceptable: alarmRatesFromDay(144),
  mostThatCanBeManaged: alarmRatesFromDay(288),
} as const;
