/** Every page, at its address; each area is fetched when it is first opened. */
import { lazy } from 'preact-iso';

export const Beds = lazy(() => import('./beds/beds-page.js'));
export const BedPage = lazy(() => import('./bed/bed-page.js'));
