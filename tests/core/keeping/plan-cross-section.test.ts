import { describe, expect, test } from 'vitest';
import {
  crossSectionSvg,
  type Plan,
  type PlanQuestion,
  planBed,
} from '../../../services/core/keeping/index.js';

const STEPS = [150, 100, 50].map((length) => ({ length, width: 60, height: 25 }));
const PLAN: Plan = planBed({ kind: 'stepped-pit', steps: STEPS, probes: 0 });
const PROBES = [
  { id: 'p1', x: 30, y: 15, depth: 13 },
  { id: 'p2', x: 75, y: 15, depth: 38 },
  { id: 'p3', x: 75, y: 45, depth: 38 },
];
const drawn = (change: Partial<Plan> = {}): string =>
  crossSectionSvg(Object.freeze({ ...PLAN, probes: PROBES, ...change }) as Plan);
const planned = (question: Partial<PlanQuestion>): string =>
  crossSectionSvg(planBed({ kind: 'stepped-pit', probes: 0, ...question }));

/** Elements close in the order they were opened, and hold no unescaped sign. */
function requireWellFormed(svg: string): void {
  const open: string[] = [];
  for (const [, end, name = '', rest = ''] of svg.matchAll(
    /<(\/?)([a-z]+)((?:\s[\w:-]+="[^"<]*")*\s*\/?)>/g,
  )) {
    if (end) expect(open.pop()).toBe(name);
    else if (!rest.endsWith('/')) open.push(name);
  }
  expect(open).toEqual([]);
  expect(svg.replace(/<(\/?)([a-z]+)((?:\s[\w:-]+="[^"<]*")*\s*\/?)>/g, '')).not.toMatch(/[<>]/);
}

const texts = (svg: string): string[] =>
  [...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, words = '']) => words);

describe('the drawing', () => {
  test('has a title and a description that its label points to', () => {
    const svg = drawn();
    requireWellFormed(svg);
    expect(svg).toContain('aria-labelledby="plan-title plan-description"');
    expect(svg).toContain('<title id="plan-title">Stepped pit of 450 L, cut along its length</title>');
    expect(svg).toMatch(/<desc id="plan-description">Steps from the top: 150 by 60 by 25 cm, .*316 roots/);
  });

  test('is to scale: all sides of all steps have one scale', () => {
    const [, path = ''] = /<path class="sand" d="M([^"]*)Z"/.exec(drawn()) ?? [];
    const points = path.split('L').map((point) => point.split(',').map(Number) as [number, number]);
    const [top, underTop, , underMiddle] = points as [number, number][];
    expect(points).toHaveLength(12);
    const width = (top?.[0] ?? 0) - (points.at(-1)?.[0] ?? 0);
    const height = (underTop?.[1] ?? 0) - (top?.[1] ?? 0);
    expect(width / 150).toBeCloseTo(height / 25, 2);
    expect((underMiddle?.[1] ?? 0) - (underTop?.[1] ?? 0)).toBeCloseTo(height, 1);
  });

  test('shows each step in centimetres, in hands and in longer measures', () => {
    const words = texts(drawn());
    expect(words.filter((one) => one === '25 cm, 2½ hands')).toHaveLength(3);
    expect(words).toContain('step 1: 150 by 60 cm; 2 strides by 3 spans');
    expect(texts(drawn({ measures: { ...PLAN.measures, hand_cm: 12.5 } }))).toContain('25 cm, 2 hands');
  });

  test('names each probe once; those that lie one behind the other share a mark', () => {
    const svg = drawn();
    expect(svg.match(/class="probe"/g)).toHaveLength(3);
    expect(texts(svg)).toEqual(
      expect.arrayContaining(['p1', 'p2 p3', 'p3: 75 cm along, 45 cm across, 38 cm deep']),
    );
    expect(drawn({ probes: [] })).not.toContain('class="probe"');
  });

  test('shows roots in every course and fewer where fewer are laid', () => {
    const roots = (svg: string): number => svg.match(/class="root"/g)?.length ?? 0;
    const full = roots(drawn());
    expect(full).toBeGreaterThan(30);
    expect(roots(planned({ steps: STEPS, roots: 60 }))).toBeLessThan(full / 2);
  });

  test('a box has boards and no ground', () => {
    const box = planned({ kind: 'box', steps: [{ length: 100, width: 60, height: 60 }] });
    requireWellFormed(box);
    expect(texts(box)).toContain('board');
    expect(box).not.toContain('url(#plan-ground)');
  });

  test.each<[Partial<PlanQuestion>]>([
    [{ steps: [{ length: 1000, width: 100, height: 25 }] }],
    [{ steps: Array.from({ length: 10 }, (_, index) => ({ length: 200 - index, width: 50, height: 5 })) }],
    [{ steps: [{ length: 20, width: 20, height: 200 }] }],
    [{ roots: 4000 }],
  ])('of %j keeps its words apart, and all within its width', (question) => {
    const svg = planned(question);
    requireWellFormed(svg);
    const [, height = '0'] = /viewBox="0 0 640 ([\d.]+)"/.exec(svg) ?? [];
    const seen = new Set<string>();
    for (const [, x = '', y = '', anchor = '', words = ''] of svg.matchAll(
      /<text x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)"[^>]*>([^<]*)</g,
    )) {
      // Letters of 20 units are about 10 wide on the average.
      const wide = words.length * 10;
      const left = Number(x) - (anchor === 'end' ? wide : anchor === 'middle' ? wide / 2 : 0);
      expect(left).toBeGreaterThanOrEqual(-2);
      expect(left + wide).toBeLessThanOrEqual(660);
      expect(Number(y)).toBeLessThanOrEqual(Number(height));
      expect(seen.has(`${x} ${y}`)).toBe(false);
      seen.add(`${x} ${y}`);
    }
  });

  test('escapes whatever a probe is called', () => {
    const svg = drawn({ probes: [{ id: '<b>&"\u0000', x: 30, y: 15, depth: 13 }] });
    requireWellFormed(svg);
    expect(svg).not.toContain('<b>');
    expect(svg).toContain('&lt;b&gt;&amp;&quot;\ufffd');
  });

  test('has no colour but black and white', () => {
    for (const [, colour = ''] of drawn().matchAll(/(?:fill|stroke)="([^"]*)"/g))
      expect(colour).toMatch(/^(#000|#fff|none|url\(#plan-(sand|ground)\))$/);
  });
});
