import { useMe } from '../access/me.js';

/** Whether whoever uses this device may write trials down, draw and change them. */
export const useMayCompare = (): boolean => useMe()?.may.includes('compare') ?? false;
