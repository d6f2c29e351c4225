import { describe, expect, test } from 'vitest';
import { seasonReport } from '../../../services/core/keeping/season-report.js';
import { seasonReportPage } from '../../../services/core/keeping/season-report-page.js';
import { emptyLedger } from '../../../services/core/keeping/stock.js';
import { ABOUT, linesOf, NOTHING, ROOTS, rowOf, season } from './a-season-report.js';
import { dayOf } from './some-stock.js';

describe('the report of several', () => {
  const bare = season({ ...NOTHING, name: 'Box B', ledger: emptyLedger('box-b') });
  const { title, sections } = seasonReport([season(), bare], ABOUT);

  test('a line for each bed in every table', () => {
    expect(title).toBe('Season of 2 beds');
    for (const { tables } of sections)
      for (const { columns, rows } of tables) {
        expect(rows.map(([name]) => name)).toEqual(['Pit A', 'Box B']);
        for (const cells of rows) expect(cells).toHaveLength(columns.length);
      }
    expect(linesOf(sections, 'What came out')).toEqual([
      'Pit A | 40 | 3 | 357',
      'Box B | not known | not known | not known',
    ]);
    expect(linesOf(sections, 'Alarms')).toEqual(['Pit A | 2 | 1 | 0 | 0 | 0', 'Box B | 0 | 0 | 0 | 0 | 0']);
    expect(linesOf(sections, 'What was lost')[1]).toBe(
      'Box B | not known: no roots were counted | not known | not known',
    );
  });

  test('of which nobody wrote anything down says so once, and beds that nobody opened have no sprouts to tell', () => {
    const described = season({ ...NOTHING, name: 'Pit C', described: ROOTS });
    const { sections: known } = seasonReport([described, bare], ABOUT);
    expect(rowOf(known, 'Roots that came out')).toMatch(/^not known/);
    expect(linesOf(known, 'What came out')).toEqual([]);
    expect(linesOf(known, 'Beds').map((line) => line.split(' | ').slice(3))).toEqual([
      ['500 (as the bed is described)', '60', 'not known', 'not known'],
      ['not known', '60', 'not known', 'not known'],
    ]);
    expect(linesOf(sections, 'Beds')[0]).toMatch(/ \| 28$/);
  });

  test('alarms whose fault no look shows are of none of the columns', () => {
    const foundOut = { verdict: 'unseen', lookedAt: null } as const;
    const silent = { kind: 'probe-silent', raisedAt: dayOf(30), clearedAt: null, foundOut } as const;
    const warm = { ...silent, kind: 'heating' } as const;
    const { sections: known } = seasonReport([season({ alarms: [silent, warm] }), bare], ABOUT);
    expect(linesOf(known, 'Alarms')[0]).toBe('Pit A | 2 | 0 | 0 | 0 | 1');
  });

  test('is named after the group, and says that it is no trial', () => {
    const named = seasonReport([season(), bare], { ...ABOUT, groupName: 'East side' });
    expect(named.title).toBe('Season of East side');
    expect(named.sections.flatMap(({ notes }) => notes).join(' ')).toMatch(/no trial/);
  });

  test('none, too many, and a zone that is none are refused', () => {
    expect(() => seasonReport([], ABOUT)).toThrow(expect.objectContaining({ code: 'TOO_FEW_SAMPLES' }));
    const many = Array.from({ length: 101 }, () => bare);
    expect(() => seasonReport(many, ABOUT)).toThrow(expect.objectContaining({ code: 'LIMIT_EXCEEDED' }));
    expect(() => seasonReport([bare], { ...ABOUT, timeZone: 'Nowhere' })).toThrow(
      expect.objectContaining({ code: 'OUT_OF_DOMAIN' }),
    );
  });
});

describe('the page', () => {
  const bad = (name: string): string => `<script>alert("${name}")</script>'&`;
  const hostile = season({
    name: bad('name'),
    cultivar: bad('cultivar'),
    field: bad('field'),
    lot: bad('lot'),
  });
  const about = { ...ABOUT, siteName: bad('site'), program: bad('program') };
  const pages = [
    seasonReportPage(seasonReport([hostile], about)),
    seasonReportPage(seasonReport([hostile, season()], { ...about, groupName: bad('group') })),
  ];

  test.each(pages)('runs nothing, asks for nothing, every element closed', (page) => {
    expect(page).toMatch(/^<!DOCTYPE html>\n<html lang="en">/);
    expect(page).not.toMatch(/<script|<link|<img|src=|href=|url\(/i);
    for (const name of ['section', 'table', 'tbody', 'tr', 'td', 'th', 'p', 'h1', 'h2', 'main', 'footer'])
      expect(page.match(new RegExp(`<${name}[ >]`, 'g'))?.length).toBe(
        page.match(new RegExp(`</${name}>`, 'g'))?.length,
      );
    expect(page.match(/<h1>/g)).toHaveLength(1);
  });

  test('what was entered stands there as it was entered', () => {
    for (const name of ['name', 'cultivar', 'field', 'lot', 'site', 'program'])
      expect(pages[0]).toContain(`&lt;script&gt;alert(&quot;${name}&quot;)&lt;/script&gt;&#39;&amp;`);
    expect(pages[1]).toContain('&quot;group&quot;');
  });

  test('holds every row and cell of its document', () => {
    const document = seasonReport([season()], ABOUT);
    const page = seasonReportPage(document);
    for (const { rows, tables } of document.sections) {
      for (const [label, value] of rows)
        expect(page).toContain(`<tr><th scope="row">${label}</th><td>${value}</td></tr>`);
      for (const cell of tables.flatMap((table) => table.rows.flat()))
        expect(page).toContain(`>${cell}</td>`);
    }
    expect(page).toContain('Issued 2026-07-04 10:00 +02:00 by Sandlarder 0.1.0.');
  });
});
