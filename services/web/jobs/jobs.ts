/** The jobs of a bed in the order of its season. Each is shown once its page stands in `routes.ts`. */
import { ROUTES } from '../routes.js';

export type JobName = 'plan' | 'sand' | 'ready' | 'fill' | 'inspect' | 'stock' | 'outlook' | 'season';

export interface Job {
  readonly name: JobName;
  /** With `:bed` where it is done at one bed. */
  readonly path: string;
  /** Which beds it is done at; `none` where no bed needs to be there. */
  readonly at: 'none' | 'empty' | 'filled';
}

const ALL: readonly Job[] = [
  { name: 'plan', path: '/jobs/plan', at: 'none' },
  { name: 'sand', path: '/jobs/sand', at: 'none' },
  { name: 'ready', path: '/jobs/ready/:bed', at: 'empty' },
  { name: 'fill', path: '/jobs/fill/:bed', at: 'empty' },
  { name: 'inspect', path: '/jobs/inspect/:bed', at: 'filled' },
  { name: 'stock', path: '/jobs/stock/:bed', at: 'filled' },
  { name: 'outlook', path: '/jobs/outlook/:bed', at: 'filled' },
  { name: 'season', path: '/jobs/season', at: 'none' },
];

export const jobs = (): readonly Job[] => ALL.filter(({ path }) => ROUTES.some(([own]) => own === path));

export const addressOf = ({ path }: Job, bed = ''): string => path.replace(':bed', bed);

/** undefined where its page is not there. */
export const jobNamed = (name: JobName): Job | undefined => jobs().find((job) => job.name === name);
