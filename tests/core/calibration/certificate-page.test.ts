import { describe, expect, test } from 'vitest';
import { certificateOf } from '../../../services/core/calibration/certificate.js';
import { certificatePage } from '../../../services/core/calibration/certificate-page.js';
import { escaped } from '../../../services/core/calibration/markup.js';
import { residualPlotSvg } from '../../../services/core/calibration/residual-plot-svg.js';
import type { Calibration } from '../../../services/core/model/calibration-record.js';
import { ABOUT, saltCalibration, someCalibration, unevenCalibration } from '../../support/a-calibration.js';

const pageOf = (record: Calibration, about: object = {}): string =>
  certificatePage(certificateOf(record, { ...ABOUT, ...about }), residualPlotSvg(record));

/** Elements that have no end. */
const VOID = ['meta', 'col', 'rect', 'circle', 'polygon', 'polyline', 'path'];

/** Names of the elements that are open where the text ends, or the first that is closed out of turn. */
function unbalanced(html: string): string[] {
  const open: string[] = [];
  for (const [, end, name = ''] of html.matchAll(/<(\/?)([a-zA-Z][a-zA-Z0-9]*)[^>]*>/g)) {
    if (VOID.includes(name)) continue;
    if (end !== '/') open.push(name);
    else if (open.pop() !== name) return [`closed out of turn: ${name}`];
  }
  return open;
}

const page = pageOf(unevenCalibration());

describe('page', () => {
  test('is a whole document in English', () => {
    expect(page).toMatch(/^<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">/);
    expect(page).toContain('<title>Certificate of a working calibration cal-2026-0007</title>');
    expect(page.trimEnd()).toMatch(/<\/html>$/);
  });

  test.each([
    ['uneven', page],
    ['salts', pageOf(saltCalibration())],
  ])('%s: every element is closed in its turn', (_, html) => {
    expect(unbalanced(html)).toEqual([]);
  });

  test('one heading above all, one for each section, none skipped', () => {
    expect(page.match(/<h1>/g)).toHaveLength(1);
    expect(page.match(/<h2>/g)).toHaveLength(page.match(/<section>/g)?.length ?? 0);
    expect(page).not.toMatch(/<h[3-6]/);
  });

  test('tables have captions and heads that say what they head', () => {
    const tables = page.match(/<div class="wide"[^>]*><table[^>]*>[\s\S]*?<\/table>/g) ?? [];
    expect(tables).toHaveLength(5);
    // Tables and the plot scroll by themselves on a phone, by keys too.
    expect(page.match(/<div class="wide" tabindex="0" role="group" aria-label="[^"]+">/g)).toHaveLength(6);
    for (const table of tables) {
      expect(table).toContain('<caption>');
      expect(table).toContain('<th scope="col"');
      expect(table).not.toContain('<th scope="col"></th>');
    }
    expect(page).toContain('<tr><th scope="row">Done by</th><td>Wanja Oduya</td></tr>');
  });

  test('prints on A4, rows whole', () => {
    expect(page).toMatch(/@page \{ size: A4;/);
    expect(page).toMatch(/tr, figure \{ break-inside: avoid; \}/);
    expect(page).toContain('thead { display: table-header-group; }');
  });

  test('runs nothing and asks for nothing', () => {
    expect(page).not.toMatch(/<script|<link|<img|<iframe|\son\w+=|@import|url\(|src=|href=/i);
    // The name of the SVG language is no address that is fetched.
    expect(page.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:/);
  });

  test('holds the plot once, under the correction', () => {
    expect(page.match(/<svg /g)).toHaveLength(1);
    expect(page.indexOf('<h2>Correction</h2>')).toBeLessThan(page.indexOf('<svg '));
  });

  test('warnings stand at its head', () => {
    const html = pageOf(someCalibration(), { supersededBy: 'cal-9', inForce: false });
    expect(html).toMatch(/<h1>.*<\/h1>\n<p class="warning"><strong>Superseded: calibration cal-9 /);
    expect(page).not.toContain('class="warning"');
  });
});

describe('whatever was entered', () => {
  const bad = (name: string): string => `<script>alert("${name}")</script>'&`;
  const record = unevenCalibration();
  const hostile: Calibration = {
    ...record,
    id: bad('id'),
    site: bad('site'),
    probe: bad('probe'),
    by: bad('by'),
    reference: {
      name: bad('name'),
      serial: bad('serial'),
      calibratedBy: bad('calibratedBy'),
      certificate: bad('certificate'),
      calibratedOn: bad('calibratedOn'),
      dueOn: bad('dueOn'),
      note: bad('note'),
    },
    conditions: { note: bad('conditions') },
    points: record.points.map((point) => ({ ...point, label: bad('label') })),
    fit: {
      ...record.fit,
      reason: bad('reason'),
      leftOut: record.fit.leftOut.map((left) => ({ ...left, reason: bad('left') })),
    },
    before: bad('before'),
    supersedes: bad('supersedes'),
    bench: bad('bench'),
  };
  const about = {
    siteName: bad('siteName'),
    probeModel: bad('probeModel'),
    program: bad('program'),
    supersededBy: bad('supersededBy'),
  };
  const html = pageOf(hostile, about);

  test('no element comes of it', () => {
    expect(html).not.toContain('<script');
    expect(unbalanced(html)).toEqual([]);
  });

  test.each([
    ...[
      'id',
      'site',
      'probe',
      'by',
      'name',
      'serial',
      'calibratedBy',
      'certificate',
      'calibratedOn',
      'dueOn',
    ],
    ...['note', 'conditions', 'label', 'reason', 'left', 'before', 'supersedes', 'bench'],
    ...['siteName', 'probeModel', 'program', 'supersededBy'],
  ])('%s stands there as it was entered', (name) => {
    expect(html).toContain(`&lt;script&gt;alert(&quot;${name}&quot;)&lt;/script&gt;&#39;&amp;`);
  });
});

describe('text', () => {
  test('letters of any language stay', () => {
    expect(escaped('Ƙofar Ɗaki, ọjọ́, 20 °C, 😀')).toBe('Ƙofar Ɗaki, ọjọ́, 20 °C, 😀');
  });

  test.each(['\u0000', '\u0008', '\u001b', '\u007f', '\u009f', '\ud800', '\udc00', '\uffff'])(
    'what no page may hold is shown as such (%j)',
    (character) => {
      expect(escaped(`a${character}b`)).toBe('a\ufffdb');
    },
  );

  test('tabs and line ends stay', () => {
    expect(escaped('a\tb\nc')).toBe('a\tb\nc');
  });
});
