/** Numbers and names as they stand in a scenario. */
import { z } from 'zod';

export const numberBetween = (low: number, high: number) => z.number().min(low).max(high);

/** Days since the filling. */
export const DAY = numberBetween(0, 1000);

/** Centimetres from the north-west corner of the opening. */
export const PLACE = { x: numberBetween(-1000, 1000), y: numberBetween(-1000, 1000) };

/** The name under which the probes outside the beds are simulated; no bed may have it. */
export const SHADE = 'shade';
