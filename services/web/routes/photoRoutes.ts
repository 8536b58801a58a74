import { photoLongestPixels, photoMediaType, photoMostBytes } from '../../../shared/api/constants.ts';
import { journalEntrySchema } from '../../../shared/api/journal.ts';
import { personOf } from '../access/asker.ts';
import type { App } from '../app.ts';
import type { House } from '../house.ts';
import { type CleanJpeg, cleanJpeg, NotAPhoto } from '../photos/cleanJpeg.ts';
import { ApiProblem, notFound } from '../problems/apiProblem.ts';
import { answers } from './answers.ts';
import { findEntry } from './find.ts';
import { changed, entryParamsSchema } from './journalRoutes.ts';

/** A pile's photos all together: enough for one a day over most of a year, and a backup stays small. */
const mostPhotosPerPile = 250;

/** Photos in the journal: scaled down on the phone, cut down to the picture here. */
export function photoRoutes(app: App, house: House): void {
  app.addContentTypeParser(
    photoMediaType,
    { parseAs: 'buffer', bodyLimit: photoMostBytes },
    (_request, body, done) => done(null, body),
  );

  app.route({
    method: 'PUT',
    url: '/api/journal/:entryId/photo',
    config: { access: 'keeper' },
    bodyLimit: photoMostBytes,
    schema: {
      summary: `The photo of an entry, as ${photoMediaType}; the first one sent stays`,
      params: entryParamsSchema,
      response: answers(journalEntrySchema),
    },
    handler: async (request) => {
      const { entry, pile } = await findEntry(house, request, request.params.entryId);
      if (entry.by !== personOf(request).id)
        throw new ApiProblem('conflict', 'Only whoever wrote an entry can add a photo to it.');
      const photo = checkedPhoto(request.body);
      if (entry.photo === undefined) await refuseTooMany(house, pile.id);
      const { bytes: jpeg, ...size } = photo;
      return changed(
        house,
        request,
        pile,
        await house.records.journal.savePhoto(entry.id, { jpeg, ...size }),
      );
    },
  });

  app.route({
    method: 'GET',
    url: '/api/journal/:entryId/photo',
    config: { access: 'viewer' },
    schema: { params: entryParamsSchema },
    handler: async (request, reply) => {
      const { entry } = await findEntry(house, request, request.params.entryId);
      const jpeg = await house.records.journal.photo(entry.id);
      if (jpeg === null) throw notFound('photo', 'entryId', entry.id);
      // A photo never changes; it is this person's browser's alone, because it is shown to who signed in.
      return reply
        .type(photoMediaType)
        .header('cache-control', 'private, max-age=31536000, immutable')
        .send(Buffer.from(jpeg) as never);
    },
  });
}

function checkedPhoto(body: unknown): CleanJpeg {
  if (!Buffer.isBuffer(body))
    throw new ApiProblem('unsupported-media-type', `A photo is sent as ${photoMediaType}.`);
  try {
    const photo = cleanJpeg(body);
    const longest = Math.max(photo.widthPixels, photo.heightPixels);
    if (longest > 0 && longest <= photoLongestPixels) return photo;
    throw new NotAPhoto(
      `It is ${photo.widthPixels} x ${photo.heightPixels} pixels; at most ${photoLongestPixels} each way.`,
    );
  } catch (error) {
    if (!(error instanceof NotAPhoto)) throw error;
    throw new ApiProblem('bad-request', `The photo cannot be taken. ${error.message}`);
  }
}

async function refuseTooMany(house: House, pileId: string): Promise<void> {
  const journal = await house.records.journal.list(pileId);
  const photos = journal.filter(({ photo }) => photo !== undefined).length;
  if (photos >= mostPhotosPerPile)
    throw new ApiProblem('conflict', `This pile has ${photos} photos; it can keep ${mostPhotosPerPile}.`);
}
