/** What the HTTP edge needs for reading and changing site descriptions. */
import type { Move } from '../core/model/moving.js';
import type { Action, Role } from '../core/model/roles.js';
import type { Bed, Group, Person, Probe, Site, SiteDescription } from '../core/model/site.js';
import type { ThresholdSetting } from '../core/model/threshold-settings.js';
import type { AccessStanding } from './ports-access.js';

/** What of a site can be changed by itself; `site` are its own name, time zone and how its people are told. */
export const ENTRY_KINDS = ['site', 'bed', 'probe', 'person', 'group'] as const;
export type EntryKind = (typeof ENTRY_KINDS)[number];

export type SiteEntry = Site | Bed | Probe | Person | Group;

export interface EntryName {
  readonly site: string;
  readonly kind: EntryKind;
  readonly id: string;
}

/** What a change expects to find: nothing yet, any version, or one of these. */
export type Expected = 'nothing' | 'any' | readonly number[];

export interface SiteView {
  readonly id: string;
  readonly name: string;
  readonly timezone: string;
  readonly version: number;
  readonly beds: number;
  readonly probes: number;
  readonly people: number;
  readonly groups: number;
}

/** A description, or an entry of one, as a site file has it, and the version it stands at. */
export interface DescribedView {
  readonly document: unknown;
  readonly version: number;
}

export interface ChangedView extends DescribedView {
  readonly isNew: boolean;
  /** Whether anything is otherwise than before. */
  readonly isChanged: boolean;
  /** What follows for the watch and for people, a sentence each. */
  readonly follows: readonly string[];
}

export interface TakenView {
  readonly site: string;
  readonly version: number;
  readonly isNew: boolean;
  /** By kind: how many are new, changed, and as they were. */
  readonly counts: Readonly<Record<string, { added: number; changed: number; same: number }>>;
  readonly follows: readonly string[];
}

export interface SiteChangeView {
  readonly version: number;
  /** Wall clock, ms. */
  readonly at: number;
  /** Null where a file was loaded by the command. */
  readonly by: string | null;
  readonly kind: EntryKind;
  readonly id: string;
  readonly isNew: boolean;
}

export interface ProbeCalibration {
  readonly quantity: 'temperature' | 'humidity';
  /** Id of the one in force; null where there is none. */
  readonly calibration: string | null;
  readonly dueAt: number | null;
  readonly isDue: boolean;
}

/** A described probe: where it stands now, and how it is. */
export interface KnownProbeView {
  readonly site: string;
  readonly id: string;
  readonly model: string | null;
  readonly version: number;
  /** Null where it stands nowhere now. */
  readonly stands:
    | { readonly bed: string; readonly x: number; readonly y: number; readonly depth: number }
    | { readonly ambient: true }
    | null;
  /** When that began; of one that stands nowhere when it was taken out, null where it never stood. */
  readonly since: number | null;
  /** Placements that it has had, this one among them. */
  readonly placements: number;
  readonly online: boolean | null;
  /** Event time of its newest reading; null before the first. */
  readonly lastHeardAt: number | null;
  readonly battery_V: number | null;
  readonly charge_EL: number | null;
  /** Since when it lies on a bench that is open; null where it does not. */
  readonly onBenchSince: number | null;
  readonly calibrations: readonly ProbeCalibration[];
}

export interface ProbeQuery {
  readonly site?: string | undefined;
  readonly bed?: string | undefined;
  readonly limit: number;
  /** Give only probes after this one (`site/probe`) in order of site and id. */
  readonly after?: string | undefined;
}

/** Somebody who can do something here, and how far it goes. */
export interface AccessParty {
  readonly id: 'service' | 'short-messages' | 'links' | 'gateway' | 'probes' | 'devices' | 'machine';
  /** Whether there is such a party, as this service was started. */
  readonly isOpen: boolean;
  readonly who: string;
  readonly proof: string;
  readonly may: readonly string[];
  readonly mayNot: readonly string[];
}

export interface RoleView {
  readonly role: Role;
  readonly may: readonly Action[];
  /** Of these: at the beds alone that are named with the role. */
  readonly atNamedBeds: readonly Action[];
}

export interface AccessView {
  readonly standing: AccessStanding;
  readonly roles: readonly RoleView[];
  readonly asksForCredentials: boolean;
  /** What all should know of it, a sentence each. */
  readonly notes: readonly string[];
  readonly parties: readonly AccessParty[];
}

/** All of it throws NOT_FOUND for what is not described. */
export interface SitePorts {
  list(): readonly SiteView[];
  description(site: string): DescribedView;
  /**
   * Takes in a description as loading a file does: adds and changes, takes nothing away. Throws CHANGED_MEANWHILE,
   * BAD_SITE_FILE and CONFLICT.
   */
  take(by: string, description: SiteDescription, expected: Expected): TakenView;
  entry(name: EntryName): DescribedView;
  /** Throws CHANGED_MEANWHILE, BAD_SITE_FILE and CONFLICT. */
  change(name: EntryName, by: string, entry: SiteEntry, expected: Expected): ChangedView;
  /** Throws CHANGED_MEANWHILE, BAD_SITE_FILE, and CONFLICT for a time that does not follow, or a probe on a bench. */
  move(site: string, probe: string, move: Move, expected: Expected): ChangedView;
  /** Newest first. */
  changes(site: string, limit: number): readonly SiteChangeView[];
  /** Those of no site where none is named. */
  siteThresholds(site?: string): readonly ThresholdSetting[];
  bedThresholds(bed: string): readonly ThresholdSetting[];
  probes(query: ProbeQuery): { readonly probes: readonly KnownProbeView[]; readonly more: boolean };
  access(): AccessView;
}
