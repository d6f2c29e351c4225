import { z } from 'zod';
import { photoNameSchema } from '../../core/model/inspection-detail.js';
import { PHOTO_LIMITS, PHOTO_TYPES } from '../../core/model/photo.js';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { sendProblem } from '../problem.js';
import { jsonAnswer } from '../schemas/answer.js';
import { inspectionPathSchema } from '../schemas/inspection.js';
import { problemResponses } from '../schemas/problem.js';

const photoPathSchema = inspectionPathSchema.extend({ name: photoNameSchema });

const photoSchema = z
  .object({ name: z.string(), mediaType: z.enum(PHOTO_TYPES), size_bytes: z.number().int() })
  .meta({ id: 'Photo' });

/** What was checked by its first bytes when it was taken in. */
const asPhoto = ({
  name,
  mediaType,
  size_bytes,
}: {
  name: string;
  mediaType: string;
  size_bytes: number;
}) => ({
  ...{ name, mediaType: mediaType as (typeof PHOTO_TYPES)[number], size_bytes },
});

const TAGS = ['keeping'];

/** `/api/inspections/{inspection}/photos`: pictures, as small files. */
export function addPhotos(app: HttpApp, ports: HttpPorts): void {
  addKeeping(app, ports);
  addShowing(app, ports);
}

function addKeeping(app: HttpApp, { ledger }: HttpPorts): void {
  app.addContentTypeParser(
    [...PHOTO_TYPES],
    { parseAs: 'buffer', bodyLimit: PHOTO_LIMITS.one_bytes },
    (_request, body, done) => {
      done(null, body);
    },
  );
  app.put(
    '/api/inspections/:inspection/photos/:name',
    {
      bodyLimit: PHOTO_LIMITS.one_bytes,
      onRequest: async (request, reply) => {
        const mediaType = request.headers['content-type']?.split(';', 1)[0]?.trim().toLowerCase();
        if ((PHOTO_TYPES as readonly (string | undefined)[]).includes(mediaType)) return undefined;
        const detail = `Content-Type must be one of ${PHOTO_TYPES.join(', ')}, got ${JSON.stringify(mediaType ?? null)}`;
        return sendProblem(request, reply, { status: 415, detail });
      },
      schema: {
        operationId: 'putPhoto',
        summary: `Keep a picture of an inspection: ${PHOTO_TYPES.join(', ')}, at most ${PHOTO_LIMITS.one_bytes} bytes`,
        tags: TAGS,
        params: photoPathSchema,
        response: {
          200: jsonAnswer('It was there already', photoSchema),
          201: jsonAnswer('The picture', photoSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415),
        },
      },
    },
    ({ body, params }, reply) => {
      const bytes = Buffer.isBuffer(body) ? body : Buffer.alloc(0);
      const { view, isNew } = ledger.addPhoto(params.inspection, params.name, bytes);
      reply.code(isNew ? 201 : 200);
      return asPhoto(view);
    },
  );
}

function addShowing(app: HttpApp, { ledger }: HttpPorts): void {
  app.get(
    '/api/inspections/:inspection/photos',
    {
      schema: {
        operationId: 'listPhotos',
        summary: 'Pictures of an inspection, by name',
        tags: TAGS,
        params: inspectionPathSchema,
        response: { 200: jsonAnswer('Pictures', z.array(photoSchema)), ...problemResponses(400, 401, 404) },
      },
    },
    ({ params }) => ledger.photos(params.inspection).map(asPhoto),
  );
  app.get(
    '/api/inspections/:inspection/photos/:name',
    {
      schema: {
        operationId: 'getPhoto',
        summary: 'One picture of an inspection',
        tags: TAGS,
        params: photoPathSchema,
        response: {
          200: {
            description: 'The file',
            content: Object.fromEntries(PHOTO_TYPES.map((type) => [type, { schema: z.any() }])),
          },
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ params }, reply) => {
      const { mediaType, bytes, name } = ledger.photo(params.inspection, params.name);
      reply.type(mediaType);
      reply.header('content-disposition', `inline; filename="${name}"`);
      return reply.send(bytes);
    },
  );
}
