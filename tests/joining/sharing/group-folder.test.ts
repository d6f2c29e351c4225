import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ARCHIVE_SCHEMA, openDatabase } from '../../../services/archive/index.js';
import { SandlarderError } from '../../../services/core/errors.js';
import {
  directoryOfSite,
  farFileSystem,
  openGroupFolder,
  readGroupFolder,
} from '../../../services/joining/sharing/group-folder.js';
import { temporaryDirectory } from '../../support/open.js';

describe('the folder of a centre', () => {
  test('is made once, and is as it was made', () => {
    const folder = join(temporaryDirectory(), 'centre');
    expect(openGroupFolder(folder, 'north', 6)).toEqual({ version: 1, group: 'north', partitions: 6 });
    expect(openGroupFolder(folder, 'north', undefined)).toMatchObject({ partitions: 6 });
    expect(readdirSync(folder)).toEqual(['group.json']);
  });

  test('has the usual number of partitions where none is said', () => {
    expect(openGroupFolder(temporaryDirectory(), 'north', undefined)).toMatchObject({ partitions: 12 });
  });

  test('keeps its group and its number of partitions: bridges of edges hold them', () => {
    const folder = temporaryDirectory();
    openGroupFolder(folder, 'north', 6);
    expect(() => openGroupFolder(folder, 'south', 6)).toThrow(
      /--share: expected "north", the group of .*, got "south"/,
    );
    expect(() => openGroupFolder(folder, 'north', 12)).toThrow(/--partitions: expected 6, .*, got 12/);
  });

  test.each([
    '',
    '{',
    '[]',
    '{"version":2,"group":"north","partitions":6}',
    '{"version":1,"group":"north","partitions":0}',
  ])('with %j in its place is refused and not made anew', (text) => {
    const folder = temporaryDirectory();
    writeFileSync(join(folder, 'group.json'), text);
    expect(() => openGroupFolder(folder, 'north', 6)).toThrow(
      /group.json: expected version, group and partitions/,
    );
  });

  test('that cannot be made is told of', () => {
    const folder = temporaryDirectory();
    writeFileSync(join(folder, 'file'), '');
    expect(() => openGroupFolder(join(folder, 'file', 'centre'), 'north', 6)).toThrow(SandlarderError);
    mkdirSync(join(folder, 'group.json'));
    expect(() => readGroupFolder(folder)).toThrow(/cannot use the folder of a centre/);
  });

  test('is no data directory: a command that takes it for one is told which it has', () => {
    const folder = temporaryDirectory();
    openGroupFolder(folder, 'north', 6);
    expect(() => openDatabase(folder, [ARCHIVE_SCHEMA])).toThrow(/folder of a centre.*p000/);
    expect(readdirSync(folder)).toEqual(['group.json']);
  });
});

test('a site lies in its partition of a centre, and in the directory itself elsewhere', () => {
  const folder = temporaryDirectory();
  expect(directoryOfSite(folder, 'ridge-station')).toBe(folder);
  openGroupFolder(folder, 'north', 12);
  expect(directoryOfSite(folder, 'ridge-station')).toBe(join(folder, 'p008'));
});

test('file systems of other machines are told apart from disks', () => {
  expect(farFileSystem(0x6969)).toBe('NFS');
  // As a signed number, which some runtimes give.
  expect(farFileSystem(0xff534d42 | 0)).toBe('CIFS');
  // ext4, XFS, Btrfs, tmpfs.
  for (const near of [0xef53, 0x58465342, 0x9123683e, 0x01021994])
    expect(farFileSystem(near)).toBeUndefined();
});
