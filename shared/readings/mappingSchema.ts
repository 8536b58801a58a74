import { z } from 'zod';
import { isValidTopicFilter } from '../messages/topicFilter.ts';
import { primaryUnits, secondaryUnits } from '../senml/units.ts';
import { isJsonPointer } from './jsonPointer.ts';
import type { MappingRule } from './mapping.ts';

const jsonPointer = z
  .string()
  .refine(isJsonPointer, 'allowed a JSON Pointer: levels that each start with "/", like /uplink/temperature');

const unit = z
  .string()
  .refine(
    (symbol) => primaryUnits.has(symbol) || secondaryUnits.has(symbol),
    'allowed a SenML unit: Cel, K, /, /100, %RH, %EL, V, mV and others; case matters',
  );

const channelMappingSchema = z.strictObject({
  pointer: jsonPointer
    .nullable()
    .default(null)
    .describe('Where the value is in the JSON; leave out when the whole payload is one number'),
  channel: z
    .string()
    .regex(/^[A-Za-z0-9.-]+$/, 'allowed letters, digits, dots and hyphens')
    .describe('What to call the series, e.g. core'),
  unit: unit.describe('SenML unit the sender means, e.g. Cel'),
});

const hasUsablePlaceholders = (template: string): boolean =>
  [...template.matchAll(/\{([^}]*)\}/g)].every(
    ([, place = '']) => /^[1-9]\d*$/.test(place) || (place.startsWith('/') && isJsonPointer(place)),
  );

/** Checks one mapping rule of the configuration. */
export const mappingRuleSchema = z.strictObject({
  topicFilter: z
    .string()
    .refine(isValidTopicFilter, 'allowed an MQTT topic filter; "+" fills one level, "#" only at the end')
    .describe('Which topics the rule is for'),
  probe: z
    .string()
    .min(1)
    .refine(hasUsablePlaceholders, 'allowed placeholders {1}, {2}... (topic level) and {/json/pointer}')
    .describe('Device name, e.g. urn:dev:mac:{/device/eui} or urn:dev:os:32473-{2}'),
  timePointer: jsonPointer
    .nullable()
    .default(null)
    .describe('Where the time of measurement is in the JSON; without it the time of arrival counts'),
  channels: z.array(channelMappingSchema).min(1).describe('What to read from each message'),
}) satisfies z.ZodType<MappingRule>;
