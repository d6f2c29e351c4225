/** A row of an alarm, and what it is read as. */
import type { Acknowledgement, Episode, Place, Shelving } from '../core/model/alarm.js';

export interface AlarmRow extends Episode {
  readonly id: string;
  readonly site: string;
  readonly text: string;
  readonly acknowledgement: Acknowledgement | null;
  /** The last, also where it is over. */
  readonly shelving: Shelving | null;
  /** By which people name it when they answer; null where nobody was told of it yet. */
  readonly number: number | null;
  /** Wall clock at which its raising, its end and another place of it became known, ms. */
  readonly knownAt: number | null;
  readonly endKnownAt: number | null;
  readonly movedAt: number | null;
  /** People know of its end without being told. */
  readonly endKnown: boolean;
  /** Ids of withdrawn alarms that people take for this one. */
  readonly formerly: readonly string[];
  readonly withdrawn: boolean;
  readonly told: ToldPlace;
}

/** What people were told of where to dig. It depends on when readings came, as an episode does not. */
export interface ToldPlace {
  /** The place that they were told last; null where they were told none. */
  readonly place: Place | null;
  /** Whether they were told another place after the raising. */
  readonly again: boolean;
}

/** As it stands in the table. */
export interface RawAlarm {
  id: string;
  site: string;
  bed: string;
  kind: Episode['kind'];
  action: Episode['action'];
  priority: Episode['priority'];
  subject: string;
  raised_at: number;
  cleared_at: number | null;
  evidence: string;
  place: string | null;
  text: string;
  ack_by: string | null;
  ack_note: string | null;
  ack_at: number | null;
  withdrawn: number;
  told_place: string | null;
  told_again: number;
  shelved_by: string | null;
  shelved_at: number | null;
  shelved_until: number | null;
  number: number | null;
  known_at: number | null;
  end_known_at: number | null;
  moved_at: number | null;
  end_known: number;
  formerly: string;
}

const placeFrom = (text: string | null): Place | null => (text === null ? null : JSON.parse(text));
export const placeText = (place: Place | null): string | null =>
  place === null ? null : JSON.stringify(place);

export function fromRaw(raw: RawAlarm): AlarmRow {
  const { id, site, bed, kind, action, priority, subject, text } = raw;
  return {
    ...{ id, site, bed, kind, action, priority, subject, text },
    raisedAt: raw.raised_at,
    clearedAt: raw.cleared_at,
    evidence: JSON.parse(raw.evidence),
    place: placeFrom(raw.place),
    acknowledgement:
      raw.ack_at === null ? null : { by: raw.ack_by ?? '', note: raw.ack_note ?? '', at: raw.ack_at },
    shelving:
      raw.shelved_until === null
        ? null
        : { by: raw.shelved_by ?? '', at: raw.shelved_at ?? 0, until: raw.shelved_until },
    number: raw.number,
    knownAt: raw.known_at,
    endKnownAt: raw.end_known_at,
    movedAt: raw.moved_at,
    endKnown: raw.end_known === 1,
    formerly: JSON.parse(raw.formerly),
    withdrawn: raw.withdrawn === 1,
    told: { place: placeFrom(raw.told_place), again: raw.told_again === 1 },
  };
}
