import type { ReportInput } from '../../../shared/alarms/reportInput.ts';
import type { Yard } from '../../../shared/yard/yard.ts';
import type { Message, MessageKind, Records } from '../../records/port.ts';

/** Texts about alarms that nobody asked for; answers, tests and summaries of the week are not what the report is about. */
const reported: readonly MessageKind[] = ['alarm', 'several', 'next-person', 'nobody-answers', 'morning'];

/** Reads what the alarm report over [fromMs, toMs) is made from. */
export async function readReportInput(
  records: Records,
  yard: Yard,
  span: { readonly fromMs: number; readonly toMs: number; readonly nowMs: number },
): Promise<ReportInput> {
  const { fromMs, toMs, nowMs } = span;
  const [people, alarms, transitions, messages, journal] = await Promise.all([
    records.people.list(yard.id),
    records.alarms.list(yard.id),
    records.alarms.transitionsBetween(yard.id, fromMs, nowMs + 1),
    records.messages.between(yard.id, fromMs, toMs),
    records.journal.forYard(yard.id, { fromMs }),
  ]);
  const wroteTo = new Set(messages.map(({ personId }) => personId));
  return {
    ...{ timeZone: yard.timeZone, fromMs, toMs, nowMs, alarms, transitions },
    people: people.filter(
      ({ id, phone, receivesTexts }) => wroteTo.has(id) || (receivesTexts && phone !== null),
    ),
    texts: messages.filter(isReported),
    deeds: journal.filter(({ by }) => by !== null),
  };
}

/** What never went out by itself did not trouble anybody. */
const isReported = ({ kind, state }: Message): boolean =>
  reported.includes(kind) && state !== 'told-together' && state !== 'not-needed';
