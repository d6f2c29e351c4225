import type { z } from 'zod';
import { SandlarderError } from '../../core/errors.js';
import { type Move, moveSchema } from '../../core/model/moving.js';
import type { HttpApp } from '../http-app.js';
import type { ChangedView, EntryKind, HttpPorts, SiteEntry, SitePorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { problemResponses } from '../schemas/problem.js';
import {
  changedSchema,
  ENTRY_ANSWERS,
  ENTRY_BODIES,
  entryPathSchema,
  sitePathSchema,
} from '../schemas/site.js';
import { expectedOf, tagOf, versionHeadersSchema } from '../versions.js';

const TAGS = ['settings'];
const CHANGES = [400, 401, 404, 409, 412, 413, 415, 422, 428];

/** Where each kind of entry is, and what a summary calls it. */
const PLACES = {
  bed: ['beds', 'Bed', 'a bed'],
  probe: ['probes', 'Probe', 'a probe and where it stood'],
  person: ['people', 'Person', 'a person'],
  group: ['groups', 'Group', 'a group'],
} as const satisfies Partial<Record<EntryKind, readonly [string, string, string]>>;

/** Entries of a site: read with their version, changed by it, and probes moved. */
export function addSiteEntries(app: HttpApp, { sites }: HttpPorts): void {
  addParticulars(app, sites);
  for (const kind of Object.keys(PLACES) as (keyof typeof PLACES)[]) addEntry(app, sites, kind);
  addMoving(app, sites);
}

const changedAnswer = ({ document, version, isChanged, follows }: ChangedView) => ({
  ...{ version, changed: isChanged, entry: document, follows: [...follows] },
});

function changedResponses(kind: EntryKind) {
  return {
    200: jsonAnswer('The entry as it stands now, and what follows', changedSchema(ENTRY_ANSWERS[kind])),
    ...problemResponses(...CHANGES),
  };
}

const responsesOf = (kind: EntryKind) => ({
  ...changedResponses(kind),
  201: jsonAnswer('The new entry, and what follows', changedSchema(ENTRY_ANSWERS[kind])),
});

function addParticulars(app: HttpApp, sites: SitePorts): void {
  const url = '/api/sites/:site/particulars';
  app.get(
    url,
    {
      schema: {
        operationId: 'getParticulars',
        summary: 'Name, time zone, thresholds and telling of a site; the version is the ETag',
        tags: TAGS,
        params: sitePathSchema,
        response: { 200: jsonAnswer('They', ENTRY_ANSWERS.site), ...problemResponses(400, 401, 404) },
      },
    },
    ({ params }, reply) => {
      const { document, version } = sites.entry({ site: params.site, kind: 'site', id: params.site });
      reply.header('etag', tagOf(version));
      return document as z.output<typeof ENTRY_ANSWERS.site>;
    },
  );
  app.put(
    url,
    {
      schema: {
        operationId: 'putParticulars',
        summary: 'Change them, by the ETag of what was read in If-Match',
        tags: TAGS,
        params: sitePathSchema,
        headers: versionHeadersSchema,
        body: ENTRY_BODIES.site,
        response: changedResponses('site'),
      },
    },
    ({ params, body, headers }, reply) => {
      requireSameId('site', params.site, body.site.id);
      const name = { site: params.site, kind: 'site', id: params.site } as const;
      const view = sites.change(name, body.by, body.site, expectedOf(headers));
      reply.header('etag', tagOf(view.version));
      return changedAnswer(view) as never;
    },
  );
}

function addEntry(app: HttpApp, sites: SitePorts, kind: keyof typeof PLACES): void {
  const [list, Name, words] = PLACES[kind];
  const url = `/api/sites/:site/${list}/:id`;
  app.get(
    url,
    {
      schema: {
        operationId: `getDescribed${Name}`,
        summary: `The description of ${words}; its version is the ETag`,
        tags: TAGS,
        params: entryPathSchema,
        response: { 200: jsonAnswer('It', ENTRY_ANSWERS[kind]), ...problemResponses(400, 401, 404) },
      },
    },
    ({ params }, reply) => {
      const { document, version } = sites.entry({ ...params, kind });
      reply.header('etag', tagOf(version));
      return document as never;
    },
  );
  app.put(
    url,
    {
      schema: {
        operationId: `putDescribed${Name}`,
        summary: `Add ${words} (If-None-Match: *), or change it whole (If-Match with the ETag of what was read)`,
        tags: TAGS,
        params: entryPathSchema,
        headers: versionHeadersSchema,
        body: ENTRY_BODIES[kind],
        response: responsesOf(kind),
      },
    },
    ({ params, body, headers }, reply) => {
      const { by, [kind]: entry } = body as unknown as { by: string } & Record<string, SiteEntry>;
      requireSameId(kind, params.id, (entry as SiteEntry).id);
      const view = sites.change({ ...params, kind }, by, entry as SiteEntry, expectedOf(headers));
      reply.code(view.isNew ? 201 : 200).header('etag', tagOf(view.version));
      return changedAnswer(view) as never;
    },
  );
}

function addMoving(app: HttpApp, sites: SitePorts): void {
  app.post(
    '/api/sites/:site/probes/:id/moves',
    {
      schema: {
        operationId: 'moveProbe',
        summary:
          'Take a probe to a place in a bed, into the shade, or out, from a time on; with If-None-Match: * one that was unknown',
        tags: TAGS,
        params: entryPathSchema,
        headers: versionHeadersSchema,
        body: moveSchema,
        response: responsesOf('probe'),
      },
    },
    ({ params, body, headers }, reply) => {
      const view = sites.move(params.site, params.id, body as Move, expectedOf(headers));
      reply.code(view.isNew ? 201 : 200).header('etag', tagOf(view.version));
      return changedAnswer(view) as never;
    },
  );
}

function requireSameId(kind: EntryKind, id: string, got: string): void {
  if (got === id) return;
  throw new SandlarderError(
    'BAD_REQUEST',
    `${kind}.id: expected the id of the address, "${id}", got "${got}"`,
    {
      misfits: [{ path: [kind, 'id'], message: `expected the id of the address, "${id}", got "${got}"` }],
    },
  );
}
