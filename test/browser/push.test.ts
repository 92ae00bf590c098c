import { afterAll, beforeAll, expect, it } from 'vitest';
import { makePushKeys, sendPush } from '../../src/notices/push.ts';
import type { Notice } from '../../src/schema/notice.ts';
import type { Probe } from '../../src/schema/reading.ts';
import { startPushReceiver } from '../support/push-receiver.ts';
import { openPage, openStage, phone, type Stage, visit } from './harness.ts';

let stage: Stage;
/** The server's clock runs ahead of the readings the demonstration group came with, so that no warm one of those lies between ours. */
let aheadMs = 0;
const nowMs = () => Date.now() + aheadMs;
beforeAll(async () => {
  stage = await openStage({ demonstration: true, nowMs });
  aheadMs = 2 * 3_600_000;
});
afterAll(() => stage?.close());

/** Lets a box with a sleeping animal fall under 2 °C, and waits for the notice. */
async function coldBox(): Promise<Notice> {
  const ask = async <T>(path: string, body?: unknown): Promise<T> =>
    (
      await fetch(`${stage.server.address}/api/v1/${path}`, {
        method: body === undefined ? 'GET' : 'POST',
        headers: { 'content-type': 'application/json' },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      })
    ).json() as Promise<T>;
  const probes = await ask<Probe[]>('probes');
  const readings = probes
    .filter((probe) => probe.boxId)
    .flatMap((probe) =>
      Array.from({ length: 9 }, (_, number) => ({
        probeId: probe.id,
        at: new Date(nowMs() - (91 - number * 10) * 60_000).toISOString(),
        tempC: 1.2,
        quality: 'good',
        source: 'http',
      })),
    );
  await ask('readings', readings);
  let found: Notice | undefined;
  await expect
    .poll(
      async () => {
        found = (await ask<Notice[]>('notices')).find((one) => one.ruleId === 'under-2' && !one.clearedAt);
        return found?.ruleId;
      },
      { timeout: 60_000 },
    )
    .toBe('under-2');
  return found!;
}

// Between our server and a browser lies a push service of the browser's maker, which no test machine need reach. Both sides of it are
// real here: the message as we encrypt it is opened with the device's keys, and what was in it is handed to the worker by the browser.
it('a push message is shown by the real service worker, replaces the one before it, and its tap leads to the notice', async () => {
  const receiver = await startPushReceiver();
  const { page, complaints } = await openPage(stage, phone);
  const context = page.context();
  await context.grantPermissions(['notifications']);
  const devtools = await context.newCDPSession(page);
  const registrations: { registrationId: string; scopeURL: string }[] = [];
  devtools.on('ServiceWorker.workerRegistrationUpdated', (event) => registrations.push(...event.registrations));
  await devtools.send('ServiceWorker.enable');
  await visit(page, '/animals');
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  const notice = await coldBox();
  const shown = () =>
    page.evaluate(async () => {
      const { getNotifications } = await navigator.serviceWorker.ready.then((worker) => ({
        getNotifications: () => worker.getNotifications(),
      }));
      return (await getNotifications()).map(({ title, body, tag, requireInteraction }) => ({
        title,
        body,
        tag,
        requireInteraction,
      }));
    });
  const deliver = async (text: string) => {
    const letter = {
      id: notice.id,
      level: 'act-now' as const,
      title: 'Act now: Sedge, Tool shed',
      text,
      path: `/notices/${notice.id}`,
      topic: 'one',
      ttlS: 3600,
    };
    await sendPush({ subject: 'mailto:tutor@example.org', ...makePushKeys() }, receiver.target, letter);
    await devtools.send('ServiceWorker.deliverPushMessage', {
      origin: stage.server.address,
      registrationId: registrations.at(-1)!.registrationId,
      data: receiver.opened(),
    });
  };
  await deliver('1.6 °C for 40 minutes – Höhle, “lid side”');
  await expect.poll(shown, { timeout: 10_000 }).toEqual([
    {
      title: 'Act now: Sedge, Tool shed',
      body: '1.6 °C for 40 minutes – Höhle, “lid side”',
      tag: notice.id,
      requireInteraction: true,
    },
  ]);
  await deliver('1.4 °C for 50 minutes');
  await expect.poll(async () => (await shown()).map((one) => one.body)).toEqual(['1.4 °C for 50 minutes']);

  // A page without a screen of the desktop cannot be tapped: the worker is given the same event that a tap makes.
  await page.reload();
  await page.evaluate(async () => {
    if (!navigator.serviceWorker.controller)
      await new Promise((done) => navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));
  });
  const worker = context.serviceWorkers()[0]!;
  await worker.evaluate(async () => {
    const scope = globalThis as unknown as {
      registration: ServiceWorkerRegistration;
      dispatchEvent(event: Event): void;
      NotificationEvent: new (type: string, more: object) => Event;
    };
    const [notification] = await scope.registration.getNotifications();
    scope.dispatchEvent(new scope.NotificationEvent('notificationclick', { notification }));
  });
  await page.waitForURL(`**/notices/${notice.id}`);
  await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe('SECTION');
  expect(await page.locator('h1').first().textContent()).not.toContain('not here');
  expect(await shown()).toEqual([]);
  expect(complaints).toEqual([]);
  receiver.stop();
  await context.close();
}, 120_000);
