import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { asCommand, lookRecord } from '../../services/commands/ledger/look-flags.js';
import { lookAsked } from '../../services/commands/ledger/look-questions.js';
import { requirePhotos } from '../../services/commands/ledger/photos.js';
import { requireRecord } from '../../services/commands/ledger/record.js';
import { temporaryDirectory } from '../support/open.js';

/** Somebody who answers by what the question is about; Enter to all else. */
async function asked(answers: Readonly<Record<string, string | readonly string[]>>, by?: string) {
  const left = new Map(Object.entries(answers).map(([about, given]) => [about, [given].flat()]));
  const questions: string[] = [];
  const said: string[] = [];
  const flags = await lookAsked(
    { service: 'http://127.0.0.1:1', ...(by !== undefined && { by }) },
    async (question) => {
      questions.push(question);
      const about = [...left.keys()].find((key) => question.includes(key));
      return (about === undefined ? undefined : left.get(about)?.shift()) ?? '';
    },
    (line) => void said.push(line),
  );
  return { flags, questions, said };
}

const bodyOf = (flags: Awaited<ReturnType<typeof asked>>['flags']) =>
  requireRecord(lookRecord('pit-a', flags ?? { service: '' })).body;

describe('a look that is asked for', () => {
  test('with Enter to everything found nothing, in eight questions', async () => {
    const { flags, questions, said } = await asked({}, 'Wanja');
    expect(questions).toHaveLength(8);
    expect(said).toEqual([]);
    expect(bodyOf(flags)).toMatchObject({
      ...{ by: 'Wanja', opened: true, repacked: false, found: ['nothing'] },
      ...{ warmByHand: 'same', smell: 'fresh', sandFeels: 'dry' },
    });
  });

  test('takes words by their beginning, counts, and roots that come out', async () => {
    const { flags } = await asked({
      ...{ 'Who looks': 'Wanja', 'hand in the sand': 'w', Smell: 'Rotten', 'Sand?': 'damp' },
      ...{
        'looked at': '40',
        'rotten or': '2',
        'short sprouts': '3',
        'come out': 'eaten 10, thrown 2 rotten',
      },
      ...{ 'packed anew': 'y', 'was done': 'sorted all' },
    });
    expect(bodyOf(flags)).toMatchObject({
      ...{ warmByHand: 'warm', smell: 'rotten', sandFeels: 'damp', looked: 40, rotten: 2, sproutsShort: 3 },
      ...{ found: ['rot', 'damp', 'sprouts'], repacked: true, did: 'sorted all' },
      out: [
        { reason: 'eaten', roots: 10 },
        { reason: 'thrown', roots: 2, were: 'rotten' },
      ],
    });
  });

  test('of a bed that stays closed asks no further', async () => {
    const { flags, questions } = await asked({ opened: 'n' }, 'Wanja');
    expect(questions).toHaveLength(4);
    expect(bodyOf(flags)).toMatchObject({ opened: false, found: ['nothing'] });
  });

  test('says what it expected, three times, and goes on with what is usual', async () => {
    const { flags, said } = await asked(
      { Smell: ['sour', 'sour', 'sour', 'sour'], 'come out': ['ten', 'eaten 4'] },
      'W',
    );
    expect(said).toEqual([
      ...Array(3).fill('  expected fresh or musty or rotten'),
      expect.stringMatching(/such as eaten 10/),
    ]);
    expect(bodyOf(flags)).toMatchObject({ smell: 'fresh', out: [{ reason: 'eaten', roots: 4 }] });
  });

  test('refuses more of a kind than were looked at while it asks, not at the end', async () => {
    const { flags, said } = await asked({ 'looked at': '30', 'rotten or': ['31', '3'] }, 'W');
    expect(said).toEqual(['  expected at most the 30 roots that were looked at']);
    expect(bodyOf(flags)).toMatchObject({ looked: 30, rotten: 3 });
  });

  test.each(['0', 'none', 'No'])('takes "%s" for nothing that came out', async (none) => {
    const { flags, said } = await asked({ 'come out': none }, 'W');
    expect(said).toEqual([]);
    expect(bodyOf(flags).out).toBeUndefined();
  });

  test('takes what came out as by flags too', async () => {
    const { flags, said } = await asked(
      { 'looked at': '9', 'come out': 'thrown:1:rotten eaten:5', 'rotten or': '1' },
      'W',
    );
    expect(said).toEqual([]);
    expect(bodyOf(flags).out).toEqual([
      { reason: 'thrown', roots: 1, were: 'rotten' },
      { reason: 'eaten', roots: 5 },
    ]);
  });

  test('asks again for a name', async () => {
    const { flags, said } = await asked({ 'Who looks': ['', ' Wanja '] });
    expect([flags?.by, said]).toEqual(['Wanja', ['  expected a name']]);
  });

  test('what was told is a command by flags as well, of the same record', async () => {
    const { flags } = await asked(
      {
        ...{ 'hand in the sand': 'warm', 'looked at': '9', 'rotten or': '1', 'packed anew': 'y' },
        ...{ 'come out': 'thrown 1 rotten', 'was done': "sorted Wanja's side" },
      },
      'Old Wanja',
    );
    expect(asCommand('pit-a', flags ?? { service: '' })).toBe(
      "sandlarder look pit-a --by 'Old Wanja' --warm warm --smell fresh --sand dry --did 'sorted Wanja'\\''s side' --looked 9 --rotten 1 --weevil 0 --rodent 0 --termite 0 --sprouts-short 0 --sprouts-long 0 --repacked --out thrown:1:rotten --service http://127.0.0.1:1",
    );
    expect(asCommand('pit-a', { service: 'http://127.0.0.1:8080', by: 'W', closed: true })).toBe(
      'sandlarder look pit-a --by W --closed',
    );
  });

  test('where nobody says who looks is none', async () => {
    expect((await asked({})).flags).toBeUndefined();
  });
});

describe('pictures', () => {
  const JPEG = [0xff, 0xd8, 0xff, 0xe0];
  const file = (bytes: Uint8Array): string => {
    const name = join(temporaryDirectory(), 'a.jpg');
    writeFileSync(name, bytes);
    return name;
  };

  test('that can be kept are taken', () => {
    expect(() => requirePhotos([file(Uint8Array.from(JPEG))])).not.toThrow();
    expect(() => requirePhotos()).not.toThrow();
  });

  test.each<[string, () => string, RegExp]>([
    [
      'a file that is not there',
      () => '/nowhere/a.jpg',
      /^--photo: expected a file that can be read at \/nowhere\/a\.jpg, got none$/,
    ],
    ['no picture', () => file(Buffer.from('hello')), /expected JPEG, PNG or WebP by its first bytes$/],
    [
      'one that is too long',
      () => file(Buffer.concat([Buffer.from(JPEG), Buffer.alloc(1024 * 1024)])),
      /expected at most 1048576 bytes \(1 MiB\), got 1048580$/,
    ],
  ])('%s is refused before anything is sent', (_, name, message) => {
    expect(() => requirePhotos([name()])).toThrow(
      expect.objectContaining({ code: 'WRONG_USAGE', message: expect.stringMatching(message) }),
    );
  });
});
