/** Minute of the day of a time such as `06:30`. */
export const minuteOfDay = (text: string): number => Number(text.slice(0, 2)) * 60 + Number(text.slice(3));

/** `06:30` of a minute of the day; 1440 is `24:00`. */
export const clockOfMinute = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
