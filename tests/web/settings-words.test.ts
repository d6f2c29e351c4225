/** Small parts of the settings that need no browser. */
import { describe, expect, test } from 'vitest';
import { settingAt, withSetting } from '../../services/web/settings/threshold-path.js';

const STORM = ['telling', 'storm', 'alarms'] as const;

describe('a setting within a description', () => {
  test('is set, and the rest stays', () => {
    const site = Object.freeze({ id: 'a', telling: Object.freeze({ morning: '05:00' }) });
    expect(withSetting(site, STORM, 8)).toEqual({
      ...{ id: 'a', telling: { morning: '05:00', storm: { alarms: 8 } } },
    });
    expect(withSetting({ id: 'a' }, ['thresholds', 'damp_check_RH'], 94)).toEqual({
      ...{ id: 'a', thresholds: { damp_check_RH: 94 } },
    });
  });

  test('is taken back, with what is empty then', () => {
    const site = { id: 'a', telling: { storm: { alarms: 8 } } };
    expect(withSetting(site, STORM, undefined)).toEqual({ id: 'a' });
    const both = { id: 'a', telling: { storm: { alarms: 8, within_min: 30 } } };
    expect(withSetting(both, STORM, undefined)).toEqual({
      ...{ id: 'a', telling: { storm: { within_min: 30 } } },
    });
    expect(withSetting({ id: 'a' }, STORM, undefined)).toEqual({ id: 'a' });
  });

  test('is read where it is, and absent where it is not', () => {
    expect(settingAt({ telling: { storm: { alarms: 8 } } }, STORM)).toBe(8);
    expect(settingAt({ telling: {} }, STORM)).toBeUndefined();
    expect(settingAt({}, STORM)).toBeUndefined();
  });
});
