import type { Alarm } from '../../shared/alarms/alarm.ts';
import { composeAlarmText } from '../../shared/messages/compose.ts';
import type { DutyPlan } from '../../shared/messages/dutyPlan.ts';
import { goodForHours, overtakenBy } from '../../shared/messages/lifetime.ts';
import { planTexts } from '../../shared/messages/plan.ts';
import type { Wordings } from '../../shared/messages/wordings.ts';
import type { Measured } from '../../shared/rules/condition.ts';
import type { Person } from '../../shared/yard/people.ts';
import type { Yard } from '../../shared/yard/yard.ts';
import type { ContactWay, NewMessage } from '../records/port.ts';
import { hashAnswerToken, newAnswerToken } from './answerToken.ts';
import type { Desk, Said } from './desk.ts';
import type { Settings } from './options.ts';

const hourMs = 3_600_000;

export interface TextContext {
  readonly yard: Yard;
  readonly people: readonly Person[];
  readonly ways: readonly ContactWay[];
  readonly duty: DutyPlan;
  readonly wordings: Wordings;
  readonly settings: Settings;
  readonly nowMs: number;
  /** A backlog is being worked off: what it raises may be over before its end. */
  readonly holdTexts: boolean;
}

/**
 * Messages for the texts of a desk that are due: to whoever is on duty and wants them, about alarms that still stand
 * unacknowledged. What cleared or was answered while its text waited is not texted any more.
 */
export function dueMessages(desk: Desk, context: TextContext): NewMessage[] {
  const { standing } = desk;
  if (context.holdTexts) return [];
  return [...standing.textsDue].flatMap(([condition, due]) => {
    const alarm = standing.alarms.get(condition);
    const isWanted = alarm !== undefined && asksStill(alarm) && alarm.occurrence === due.occurrence;
    if (isWanted && due.dueMs > context.nowMs) return [];
    standing.textsDue.delete(condition);
    desk.changes.stateChanged = true;
    if (!isWanted) return [];
    standing.lastTextMs.set(condition, context.nowMs);
    return messagesFor(desk, alarm, due.measured, context);
  });
}

/**
 * Whether an alarm still asks for a person who has not answered. A latched one does although its cause has gone: what
 * rose and fell while nobody was told (an outage, a backlog) is what a person must look at.
 */
export function asksStill({ state }: Alarm): boolean {
  return state === 'unacknowledged' || state === 'latched-unacknowledged';
}

/** What to do first: as the likely cause asks, where the cause is in question; else as the condition says. */
export function firstActionOf(
  desk: Desk,
  { condition }: Pick<Alarm, 'condition'>,
  said: Said | null,
  { yard }: Pick<TextContext, 'yard'>,
): string {
  const explained = desk.explain(condition, yard.temperatureUnit);
  return explained?.advice.firstAction ?? said?.words.firstAction ?? '';
}

function messagesFor(
  desk: Desk,
  alarm: Alarm,
  measuredThen: Measured | null,
  context: TextContext,
): NewMessage[] {
  const said = desk.say(alarm.condition);
  if (said === null) return [];
  const firstAction = firstActionOf(desk, alarm, said, context);
  const { yard, duty: plan, settings } = context;
  const telling = { ...context, plan, timeZone: yard.timeZone, textChannel: settings.smsChannel };
  return planTexts(alarm, telling).map(({ person, channel, address: to, idempotencyKey }) => {
    const token = newAnswerToken();
    const address = context.settings.publicUrl();
    const about = {
      ...desk.where(),
      what: said.words.what,
      measured: said.findings.measured ?? measuredThen,
      temperatureUnit: context.yard.temperatureUnit,
      lastedMinutes: lasted(alarm, context.nowMs),
      firstAction,
      code: alarm.code,
      link: address === null ? null : `${address}/a/${token}`,
      canReply: settings.canReply,
    };
    const text = composeAlarmText(about, context.wordings(person.language));
    return {
      ...envelope(desk, alarm, context),
      idempotencyKey,
      personId: person.id,
      channel,
      address: to,
      text,
      firstAction,
      answerLink: {
        tokenHash: hashAnswerToken(token),
        alarmId: alarm.id,
        occurrence: alarm.occurrence,
        personId: person.id,
        expiresMs: context.nowMs + context.settings.answerHours * hourMs,
      },
    };
  });
}

function envelope(desk: Desk, alarm: Alarm, { nowMs, settings }: TextContext) {
  return {
    yardId: desk.yardId,
    pileId: desk.where().pileId,
    alarmId: alarm.id,
    occurrence: alarm.occurrence,
    priority: alarm.priority,
    createdMs: nowMs,
    notBeforeMs: nowMs,
    expiresMs: nowMs + goodForHours(alarm.condition, settings.textHours) * hourMs,
    overtakes: overtakenBy(alarm, desk.standing.alarms.values()),
  };
}

/** Since the condition has held, not only since its alarm: the on-delay was part of the trouble. */
function lasted(alarm: Alarm, nowMs: number): number | null {
  const sinceMs = alarm.timing.beyondSinceMs ?? alarm.activeSinceMs;
  return sinceMs === null ? null : Math.max(0, (nowMs - sinceMs) / 60_000);
}
