/** The flags of `sandlarder look`, and the record that they make. */
import { basename, resolve } from 'node:path';
import { SandlarderError } from '../../core/errors.js';
import { findingsOf, type InspectionDetail, type ROOT_COUNTS } from '../../core/model/inspection-detail.js';
import { readWhole } from '../numbers.js';
import { SERVICE } from '../options.js';
import { given, headOf, type LedgerFlags } from './flags.js';
import type { BedRecord } from './record.js';

export interface LookFlags extends LedgerFlags {
  readonly due?: boolean;
  readonly closed?: boolean;
  readonly repacked?: boolean;
  readonly found?: readonly string[];
  readonly warm?: string;
  readonly smell?: string;
  readonly sand?: string;
  readonly looked?: string;
  readonly rotten?: string;
  readonly weevil?: string;
  readonly rodent?: string;
  readonly termite?: string;
  readonly sproutsShort?: string;
  readonly sproutsLong?: string;
  readonly out?: readonly string[];
  readonly photo?: readonly string[];
  readonly did?: string;
  readonly note?: string;
}

const FLAG_OF: Readonly<Record<(typeof ROOT_COUNTS)[number] | 'looked', string>> = {
  looked: '--looked',
  rotten: '--rotten',
  weevil: '--weevil',
  rodent: '--rodent',
  termite: '--termite',
  sproutsShort: '--sprouts-short',
  sproutsLong: '--sprouts-long',
};

/** Whether nothing of what was found is given: then it is asked for, where somebody sits at a terminal. */
export function saysNothing(flags: LookFlags): boolean {
  const { service: _s, tokenFile: _t, json: _j, by: _b, at: _a, keep: _k, ...rest } = flags;
  return Object.values(rest).every((value) => value === undefined);
}

/** `eaten:10`, `thrown:2:rotten`. @throws SandlarderError WRONG_USAGE */
export function outOf(text: string): Readonly<Record<string, unknown>> {
  const [reason, roots, were, ...more] = text.split(':');
  if (reason === '' || roots === undefined || more.length > 0)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--out: expected reason:roots or reason:roots:state, such as eaten:10 or thrown:2:rotten, got ${JSON.stringify(text)}`,
    );
  return given({ reason, roots: readWhole('--out', roots, 1, 1_000_000), were });
}

/** The record of a look; what was found follows from the counts where it is not given. */
export function lookRecord(bed: string, flags: LookFlags): BedRecord {
  const { closed = false, repacked = false, warm, smell, sand, did, note, photo } = flags;
  const counts = Object.fromEntries(
    Object.entries(FLAG_OF).map(([key, flag]) => {
      const text = flags[key as keyof typeof FLAG_OF];
      return [key, text === undefined ? undefined : readWhole(flag, text, 0, 1_000_000)];
    }),
  );
  const detail = given({
    ...{ warmByHand: warm, smell, sandFeels: sand, ...counts, did, note },
    out: flags.out?.map(outOf),
    photos: photo?.map((file) => basename(file)),
  });
  const told = findingsOf(detail as InspectionDetail).filter((finding) => finding !== 'nothing');
  const found = [...new Set([...(flags.found ?? []), ...told])];
  const body = {
    ...{ ...headOf(flags), opened: !closed, repacked, found: found.length > 0 ? found : ['nothing'] },
    ...detail,
  };
  const photoFiles = photo?.map((file) => resolve(file));
  return { record: 'inspection', bed, body, ...(photoFiles && { photoFiles }) };
}

const SENSES = { warm: '--warm', smell: '--smell', sand: '--sand', did: '--did', note: '--note' } as const;

/** The command that says by flags what was told, so that what could not be sent is not asked for again. */
export function asCommand(bed: string, flags: LookFlags): string {
  const worded = Object.entries({ by: '--by', at: '--at', ...SENSES, ...FLAG_OF }).flatMap(([key, flag]) => {
    const text = flags[key as keyof typeof SENSES];
    return text === undefined ? [] : [flag, quoted(text)];
  });
  const out = flags.out === undefined ? [] : ['--out', ...flags.out.map(quoted)];
  const ticked = [...(flags.closed ? ['--closed'] : []), ...(flags.repacked ? ['--repacked'] : [])];
  const service = flags.service === SERVICE[2] ? [] : ['--service', quoted(flags.service)];
  const token = flags.tokenFile === undefined ? [] : ['--token-file', quoted(flags.tokenFile)];
  return ['sandlarder look', bed, ...worded, ...ticked, ...out, ...service, ...token].join(' ');
}

/** For a POSIX shell. */
const quoted = (text: string): string =>
  /^[\w.:+/-]+$/.test(text) ? text : `'${text.replaceAll("'", "'\\''")}'`;
