/** The page behind a link of a message about one alarm. */
import { describe, expect, test } from 'vitest';
import { problemOfAnswer } from './answers.js';
import { peopleApp } from './people-app.js';

describe('the page behind a link', () => {
  test('shows what it is about and does nothing, however often it is looked at', async () => {
    const { app, duty, told } = await peopleApp();
    const { alarm, path } = told();
    for (let look = 0; look < 3; look += 1) {
      const answer = await app.inject(path);
      expect(answer.statusCode).toBe(200);
      expect(answer.headers).toMatchObject({
        'content-type': 'text/html; charset=utf-8',
        'cache-control': 'no-store',
        'referrer-policy': 'no-referrer',
        'content-security-policy': expect.stringMatching(/^default-src 'none'/),
      });
      expect(answer.body).toMatch(/<form method="post">/);
      expect(answer.body).toMatch(/Pit A.*For Ana\./s);
    }
    await app.inject({ method: 'HEAD', url: path });
    expect(duty.registry.alarms.get(alarm)?.acknowledgement).toBeNull();
  });

  test.each([
    ['answer=seen', { note: '' }, undefined],
    ['answer=found&found=rot&found=damp&repacked=yes', { note: 'by what was found' }, ['rot', 'damp']],
    ['found=nothing&answer=found', { note: 'by what was found' }, ['nothing']],
  ])('%s acts once; then it says that it was used', async (payload, acknowledgement, found) => {
    const { app, duty, told, form } = await peopleApp();
    const { alarm, path } = told();
    const first = await form(path, payload);
    expect(first.statusCode).toBe(200);
    expect(first.body).toMatch(/Thanks\. .*Pit A/);
    expect(duty.registry.alarms.get(alarm)?.acknowledgement).toMatchObject({ by: 'Ana', ...acknowledgement });
    expect(duty.registry.inspections.latest('pit-a')?.found).toEqual(found);
    const again = await form(path, payload);
    expect(again.statusCode).toBe(409);
    expect(again.headers['content-type']).toBe('text/html; charset=utf-8');
    expect(again.body).toMatch(/or the link was used: each works once/);
    expect(again.body).not.toMatch(/<form/);
    expect((await app.inject(path)).body).toMatch(/each works once/);
    expect(duty.registry.inspections.between('pit-a', 0, Number.MAX_SAFE_INTEGER)).toHaveLength(
      found ? 1 : 0,
    );
  });

  test('puts off for six hours', async () => {
    const { duty, told, form } = await peopleApp();
    const { alarm, path } = told();
    expect((await form(path, 'answer=quiet')).statusCode).toBe(200);
    expect(duty.registry.alarms.get(alarm)?.shelving?.until).toBe(duty.now() + 6 * 3_600_000);
  });

  test('of an alarm that is over says so, and is not used up by it', async () => {
    const { app, duty, told, form } = await peopleApp();
    const { path } = told();
    duty.clear('pit-a');
    expect((await app.inject(path)).body).toMatch(/This alarm is over/);
    const answer = await form(path, 'answer=seen');
    expect(answer.statusCode).toBe(409);
    expect(answer.body).toMatch(/This alarm is over/);
    duty.retell('pit-a', (story) => story.filter(({ type }) => type === 'raise'));
    expect((await form(path, 'answer=seen')).statusCode).toBe(200);
  });

  test('is of the alarm that people take for the one that they were told of', async () => {
    const { app, duty, told, form } = await peopleApp();
    const { alarm, path } = told();
    duty.retell('pit-a', (story) => story.map((change) => ({ ...change, at: change.at - 3_600_000 })));
    const [row] = duty.registry.alarms.open('pit-a');
    expect(row?.id).not.toBe(alarm);
    expect((await app.inject(path)).body).toMatch(/<form/);
    expect((await form(path, 'answer=seen')).statusCode).toBe(200);
    expect(duty.registry.alarms.get(row?.id ?? '')?.acknowledgement?.by).toBe('Ana');
  });

  test.each([
    ['', /expected seen, found or quiet, got null/],
    ['answer=', /got ""/],
    ['answer=SEEN', /got "SEEN"/],
    ['answer=found', /found: expected/],
    ['answer=found&found=gold', /found: expected/],
    ['answer=found&found=rot&found=nothing', /"nothing" alone/],
  ])('a form of %j is refused and uses nothing up', async (payload, detail) => {
    const { duty, told, form } = await peopleApp();
    const { alarm, path } = told();
    expect(problemOfAnswer(await form(path, payload), 400).detail).toMatch(detail);
    expect(duty.registry.alarms.get(alarm)?.acknowledgement).toBeNull();
    expect((await form(path, 'answer=seen')).statusCode).toBe(200);
  });

  test('a body that is no form is refused', async () => {
    const { told, json, app } = await peopleApp();
    const { path } = told();
    problemOfAnswer(await json(path, { answer: 'seen' }), 400);
    problemOfAnswer(await app.inject({ method: 'POST', url: path }), 400);
  });

  test('forged, cut and late links are no addresses', async () => {
    const { app, duty, told, form, reported } = await peopleApp();
    const { path } = told();
    for (const url of [`${path}x`, path.slice(0, -9), '/answer?t=x', '/answer?t=..']) {
      problemOfAnswer(await app.inject(url), 404);
      problemOfAnswer(await form(url, 'answer=seen'), 404);
    }
    for (const url of ['/answer', '/answer?t=', `${path}&t=x`, `/answer?t=${'x'.repeat(1501)}`])
      problemOfAnswer(await app.inject(url), 400);
    duty.goTo(duty.now() + 7 * 24 * 3_600_000);
    expect(problemOfAnswer(await app.inject(path), 404).detail).toMatch(/expected one that still holds/);
    expect(reported).toEqual([]);
  });

  test('without an address for people there is none', async () => {
    const { app, told } = await peopleApp({ links: false });
    expect(problemOfAnswer(await app.inject(told().path), 404).detail).toMatch(/without --public-url/);
  });

  test('shows a name as text', async () => {
    const { app, duty, told } = await peopleApp();
    const { path } = told();
    const beds = [
      { id: 'pit-a', name: '<script>x</script>', kind: 'box', steps: [{ length: 9, width: 9, height: 9 }] },
    ];
    duty.load({ version: 1, site: { id: 'ridge', name: 'Ridge', timezone: 'Africa/Lusaka' }, beds });
    expect((await app.inject(path)).body).toContain('&lt;script&gt;x&lt;/script&gt;');
  });
});
