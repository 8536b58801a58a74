import { z } from 'zod';

/** A GSM modem on a serial port, so that a yard without internet still texts (3GPP TS 27.005). */
export const modemSchema = z.strictObject({
  port: z
    .string()
    .regex(/^(\/dev\/\S+|tcp:\/\/[^\s/]+:\d+)$/, 'allowed: /dev/... or tcp://host:port')
    .describe('Serial port, e.g. /dev/ttyUSB0, or tcp://host:port of a serial server'),
  baud: z
    .union([4800, 9600, 19_200, 38_400, 57_600, 115_200, 230_400].map((rate) => z.literal(rate)))
    .default(115_200)
    .describe('Speed of the serial port, bit/s; a serial server has its own'),
  mode: z
    .enum(['pdu', 'text'])
    .default('pdu')
    .describe(
      'How texts are handed over; text only for a modem that knows no other, long ones go as numbered texts',
    ),
  pin: z
    .string()
    .regex(/^\d{4,8}$/, 'allowed: 4 to 8 digits')
    .nullable()
    .default(null)
    .describe(
      'PIN of the SIM card; tried once in a start, so that a wrong one does not lock the card. Null: it has none',
    ),
  storage: z
    .enum(['SM', 'ME'])
    .default('SM')
    .describe('Where the modem keeps texts that came in: SIM card or modem'),
  deliveryReports: z.boolean().default(true).describe('Ask the network to say when a text reached the phone'),
  longestParts: z.int().min(1).max(20).default(4).describe('Longest text in parts; what is beyond is cut'),
  promptSeconds: z
    .number()
    .min(0.1)
    .max(60)
    .default(15)
    .describe('Longest wait for the modem to ask for the text, s'),
  sendSeconds: z
    .number()
    .min(0.1)
    .max(180)
    .default(60)
    .describe('Longest wait for the network to take one part, s'),
  answerSeconds: z.number().min(0.1).max(60).default(10).describe('Longest wait for any other answer, s'),
  pollSeconds: z
    .number()
    .min(0.1)
    .max(3600)
    .default(60)
    .describe('How often the modem is asked whether it is alive and holds texts nobody announced, s'),
});

export type ModemSettings = z.infer<typeof modemSchema>;
