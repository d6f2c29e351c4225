/** Which addresses are the page's own: its document and its built files. All else goes to the service. */

export const cacheName = (version: string): string => `sandlarder-page-${version}`;

const WAYS = ['beds', 'alarms', 'jobs', 'bench', 'trials', 'settings'];

/** Addresses that show the page. */
export const isDocument = (path: string): boolean => path === '/' || WAYS.includes(path.split('/')[1] ?? '');

const NAMED = /^\/(?:icon[\w-]*\.(?:svg|png)|app\.webmanifest)$/;

/** Built files; the worker itself is never kept, or it could not be replaced. */
export const isKept = (path: string): boolean => path.startsWith('/assets/') || NAMED.test(path);
