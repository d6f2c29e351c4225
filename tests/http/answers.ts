/** What the tests ask of answers. */
import { STATUS_CODES } from 'node:http';
import type { FastifyInstance } from 'fastify';
import { expect, onTestFinished } from 'vitest';
import { buildApp, type HttpOptions } from '../../services/http/app.js';
import type { HttpPorts } from '../../services/http/ports.js';
import { PROBLEM_TYPE, type Problem, problemSchema } from '../../services/http/schemas/problem.js';
import { PortsInMemory } from './ports.js';

/** The HTTP edge over the stand-in; closed when the test is over. */
export async function appOver(
  ports: HttpPorts = new PortsInMemory(),
  options: HttpOptions = {},
): Promise<FastifyInstance> {
  const app = await buildApp(ports, options);
  onTestFinished(() => app.close());
  return app;
}

interface Answer {
  readonly statusCode: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly body: string;
}

/** Checks that an answer is problem details of the status [RFC 9457 3.1] and gives it. */
export function problemOfAnswer(answer: Answer, status: number): Problem {
  expect(answer.statusCode).toBe(status);
  expect(String(answer.headers['content-type']).split(';')[0]).toBe(PROBLEM_TYPE);
  const problem = problemSchema.parse(JSON.parse(answer.body));
  expect(problem).toMatchObject({ type: 'about:blank', status, title: STATUS_CODES[status] });
  return problem;
}

/** The places that a problem names. */
export const placesOf = ({ errors = [] }: Problem): (string | undefined)[] =>
  errors.map(({ pointer, parameter }) => pointer ?? parameter);
