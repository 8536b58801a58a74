import { z } from 'zod';
import { fileSumSchema } from '../fileSums.ts';
import { readManifestFile } from '../readManifestFile.ts';

export const manifestFile = 'export.json';

const channelSchema = z.strictObject({
  channel: z.string().min(1),
  /** SenML unit of its values; null where it is not known. */
  unit: z.string().nullable(),
  file: z.string(),
  readings: z.int().min(0),
});
export type ExportedChannel = z.infer<typeof channelSchema>;

const manifestSchema = z.strictObject({
  what: z.literal('Tilthwatch export'),
  layout: z.literal(1),
  madeBy: z.string(),
  madeMs: z.int(),
  yards: z.array(z.string()),
  /** Steps of the records' schema the tables are of. */
  recordsSteps: z.array(z.string()),
  /** Rows of each file in `records/`. */
  tables: z.record(z.string(), z.int().min(0)),
  channels: z.array(channelSchema),
  leftOut: z.array(z.string()),
  files: z.array(fileSumSchema),
});
export type ExportManifest = z.infer<typeof manifestSchema>;

/** @throws Error when the folder holds no export this program can read. */
export function readExportManifest(folder: string): Promise<ExportManifest> {
  return readManifestFile(folder, manifestFile, 'export', manifestSchema);
}
