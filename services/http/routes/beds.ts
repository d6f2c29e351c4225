import { z } from 'zod';
import { rotLeftSaid } from '../../core/alarms/languages/index.js';
import type { Language } from '../../core/model/languages.js';
import { languageOf } from '../accept-language.js';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { type BedSayings, bedAnswer, bedPathSchema, bedSchema } from '../schemas/bed.js';
import { onlyLanguageSchema } from '../schemas/language.js';
import { problemResponses } from '../schemas/problem.js';

/** `GET /api/beds` and `GET /api/beds/{bed}`. */
export function addBeds(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/beds',
    {
      schema: {
        operationId: 'listBeds',
        summary: 'All beds, their probes, their latest readings, and how they stand',
        tags: ['beds'],
        querystring: onlyLanguageSchema,
        response: { 200: jsonAnswer('The beds', z.array(bedSchema)), ...problemResponses(400, 401) },
      },
    },
    (request, reply) => {
      const language = languageOf(request, reply);
      return ports.beds().map((view) => bedAnswer(view, sayings(ports, language)));
    },
  );
  app.get(
    '/api/beds/:bed',
    {
      schema: {
        operationId: 'getBed',
        summary: 'One bed, its probes, their latest readings, and how it stands',
        tags: ['beds'],
        params: bedPathSchema,
        querystring: onlyLanguageSchema,
        response: { 200: jsonAnswer('The bed', bedSchema), ...problemResponses(400, 401, 404) },
      },
    },
    (request, reply) => {
      const language = languageOf(request, reply);
      return bedAnswer(ports.bed(request.params.bed), sayings(ports, language));
    },
  );
}

const sayings = ({ alarmSaid }: HttpPorts, language: Language): BedSayings => ({
  alarm: (alarm) => alarmSaid(alarm, language),
  rotLeft: ({ at }, bed) => rotLeftSaid(at, bed, language),
});
