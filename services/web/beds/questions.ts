/** What the page of all beds asks the service. */
import type { Language } from '../../core/model/languages.js';

export const todayIn = (language: Language): string => `/api/today?language=${language}`;
export const BEDS = '/api/beds';
export const LOOKS = '/api/looks';

/** Addresses of the page of all beds. */
export const AT_HOME: ReadonlySet<string> = new Set(['/', '/beds']);
