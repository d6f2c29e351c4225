/** Whether somebody may do something, so that the page offers that alone. The service decides, whatever the page offers. */
import { type Action, isAtNamedBeds } from '../../core/model/roles.js';
import type { Me } from '../api/types/access.js';
import { useMe } from './me.js';
import { pageAsks } from './page-asks.js';

/**
 * @param me undefined as long as the service has not said who asks: then it is offered
 * @param bed at which; undefined asks whether they may anywhere
 */
export function mayDo(me: Me | undefined, action: Action, bed?: string): boolean {
  if (me === undefined) return true;
  if (!me.may.includes(action)) return false;
  const isAnywhere = bed === undefined || me.role === null || !isAtNamedBeds(me.role, action);
  return isAnywhere || me.beds.includes(bed);
}

export const useMay = (action: Action, bed?: string): boolean => mayDo(useMe(), action, bed);

/** Whether a page of this address does anything for whoever is here. */
export function useMayOpen(): (address: string) => boolean {
  const me = useMe();
  return (address) => {
    const asks = pageAsks(address);
    return asks === undefined || mayDo(me, asks.action, asks.bed);
  };
}
