import { z } from 'zod';

const channelSchema = z.object({ xMetres: z.number(), yMetres: z.number(), radiusMetres: z.number() });

/** `GET /api/piles/:pileId/form`. Metres; x and y from the middle, z above the base. */
export const pileFormSchema = z.object({
  form: z
    .object({
      outline: z.discriminatedUnion('kind', [
        z.object({ kind: z.literal('circle'), radius: z.number() }),
        z.object({ kind: z.literal('rectangle'), length: z.number(), width: z.number() }),
      ]),
      wallHeight: z.number(),
      fillHeight: z.number(),
      wallPermeable: z.boolean(),
      topOpen: z.boolean(),
      baseOpen: z.boolean(),
      channels: z.array(channelSchema).readonly(),
      coreProbe: z.object({ x: z.number(), y: z.number(), z: z.number() }).nullable(),
    })
    .nullable(),
});
export type PileFormView = z.infer<typeof pileFormSchema>;
