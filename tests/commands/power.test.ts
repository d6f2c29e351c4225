import { describe, expect, test } from 'vitest';
import { type PowerFlags, power } from '../../services/commands/keeping/power.js';

function said(flags: Partial<PowerFlags>): string[] {
  const lines: string[] = [];
  power({ sleep: '12', capacity: '2400', ...flags }, (line) => lines.push(line));
  return lines;
}

describe('power', () => {
  test('says each step, then how long it lasts', () => {
    const lines = said({ active: ['2:1:144', '120:4:24'] });
    expect(lines.slice(0, 4)).toEqual([
      'Asleep: 12 µA x 24 h = 0.288 mAh a day',
      'Awake: 2 mA x 1 s x 144 a day / 3600 = 0.08 mAh a day',
      'Awake: 120 mA x 4 s x 24 a day / 3600 = 3.2 mAh a day',
      'Together: 3.57 mAh a day, a mean of 0.149 mA',
    ]);
    expect(lines.join('\n')).not.toContain('Panel');
  });

  test('as JSON, with what was assumed', () => {
    const [text = ''] = said({ json: true, panel: '0.5', sun: '4', voltage: '3' });
    expect(JSON.parse(text)).toMatchObject({
      version: 1,
      given: { battery: { usable_percent: 80, selfDischarge_percent_year: 5 }, panel: { gives_percent: 60 } },
      solar: { harvest_mAh_day: 320 },
      cautions: [expect.stringMatching(/lithium/), expect.stringMatching(/lightning/)],
    });
  });

  test.each<[string, Partial<PowerFlags>, RegExp]>([
    ['no number', { sleep: 'low' }, /^--sleep: expected a number from 0 to 1000000, got "low"$/],
    ['half an activity', { active: ['20:2'] }, /^--active: expected mA:seconds:times a day, .* got "20:2"$/],
    ['an activity of words', { active: ['20:x:1'] }, /^--active: expected a number/],
    ['a panel without sun', { panel: '1' }, /^--panel: expected --sun beside it/],
    ['sun without a panel', { sun: '4' }, /^--sun: expected --panel W beside it/],
    ['more than all', { usable: '120' }, /^--usable: expected a number from 1 to 100/],
    ['a day of 25 hours', { active: ['1:9000:10'] }, /^power: time of an activity, s a day, must be in/],
    ['nothing drawn', { sleep: '0' }, /^power: what is used, mAh a day,/],
  ])('%s: refused in one line', (_, flags, message) => {
    expect(() => said(flags)).toThrow(
      expect.objectContaining({ code: 'WRONG_USAGE', message: expect.stringMatching(message) }),
    );
  });
});
