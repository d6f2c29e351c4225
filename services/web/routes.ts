/** Every page, at its address; each area is fetched when it is first opened. One line a page. */
import type { AnyComponent } from 'preact';
import { lazy } from 'preact-iso';
// What a phone opens first comes with the frame: a second fetch would cost it a way there and back.
import Beds from './beds/beds-page.js';

const SettingsBed = lazy(() => import('./settings/bed-page.js'));
const SettingsPerson = lazy(() => import('./settings/person-page.js'));
const SettingsGroup = lazy(() => import('./settings/group-page.js'));

/** In the place of every page for whoever has to sign in first. */
export const SignIn = lazy(() => import('./access/sign-in-page.js'));

/** Needs nobody to be signed in. */
export const Device = lazy(() => import('./settings/device-page.js'));

export const ROUTES: readonly (readonly [path: string, page: AnyComponent])[] = [
  ['/', Beds],
  ['/beds', Beds],
  ['/beds/:bed', lazy(() => import('./bed/bed-page.js'))],
  ['/jobs', lazy(() => import('./jobs/work-page.js'))],
  ['/jobs/sand', lazy(() => import('./jobs/sand/sand-page.js'))],
  ['/jobs/ready/:bed', lazy(() => import('./jobs/ready/ready-page.js'))],
  ['/jobs/plan', lazy(() => import('./jobs/plan/plan-page.js'))],
  ['/alarms', lazy(() => import('./alarm/alarms-page.js'))],
  ['/alarms/:id', lazy(() => import('./alarm/alarm-page.js'))],
  ['/jobs/inspect/:bed', lazy(() => import('./jobs/inspect/inspect-page.js'))],
  ['/jobs/waiting', lazy(() => import('./jobs/waiting/waiting-page.js'))],
  ['/bench', lazy(() => import('./bench/bench-list-page.js'))],
  ['/bench/beside', lazy(() => import('./bench/beside-page.js'))],
  ['/bench/calibrations/:id', lazy(() => import('./bench/calibration-page.js'))],
  ['/bench/:bench', lazy(() => import('./bench/bench-page.js'))],
  ['/jobs/fill/:bed', lazy(() => import('./jobs/fill/fill-page.js'))],
  ['/jobs/outlook/:bed', lazy(() => import('./jobs/outlook/outlook-page.js'))],
  ['/jobs/season', lazy(() => import('./jobs/season/season-page.js'))],
  ['/jobs/stock/:bed', lazy(() => import('./jobs/stock/stock-page.js'))],
  ['/trials', lazy(() => import('./trials/trials-page.js'))],
  ['/trials/:trial', lazy(() => import('./trials/trial-page.js'))],
  ['/trials/:trial/change', lazy(() => import('./trials/change-page.js'))],
  // Not under `/trials/`, where they would take the place of trials of these names.
  ['/jobs/trial', lazy(() => import('./trials/new-page.js'))],
  ['/jobs/trial-size', lazy(() => import('./trials/size-page.js'))],
  ['/settings', lazy(() => import('./settings/settings-page.js'))],
  ['/settings/site', lazy(() => import('./settings/site-page.js'))],
  ['/settings/beds', lazy(() => import('./settings/beds-page.js'))],
  ['/settings/beds/new', SettingsBed],
  ['/settings/beds/:bed', SettingsBed],
  ['/settings/probes', lazy(() => import('./settings/probes-page.js'))],
  ['/settings/probes/:probe', lazy(() => import('./settings/probe-page.js'))],
  ['/settings/people', lazy(() => import('./settings/people-page.js'))],
  ['/settings/people/new', SettingsPerson],
  ['/settings/people/:person', SettingsPerson],
  ['/settings/groups/new', SettingsGroup],
  ['/settings/groups/:group', SettingsGroup],
  ['/settings/drill', lazy(() => import('./settings/drill-page.js'))],
  ['/settings/thresholds', lazy(() => import('./settings/thresholds-page.js'))],
  ['/settings/changes', lazy(() => import('./settings/changes-page.js'))],
  ['/settings/access', lazy(() => import('./settings/access-page.js'))],
  ['/settings/sign-ins', lazy(() => import('./settings/sign-ins-page.js'))],
  ['/sign-in', SignIn],
  ['/settings/device', Device],
];
