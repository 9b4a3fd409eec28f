import { expect, test } from 'vitest';
import { appUrl, axeFaults, openApp, runAxe } from './support.ts';

test('the start page says what this is, and axe finds nothing wrong', async () => {
  const page = await openApp();
  expect(await page.title()).toContain('Ellwand');
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  await runAxe(page);
});

test('axe sees a fault that is planted', async () => {
  const page = await openApp();
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  await page.evaluate(() => document.querySelector('main')?.append(document.createElement('img')));
  expect((await axeFaults(page)).join()).toContain('image-alt');
});

test('a file that is not there answers 404, not the start page', async () => {
  const answer = await fetch(new URL('assets/gone.js', appUrl()));
  expect(answer.status).toBe(404);
});

test('the page may run no script but its own files', async () => {
  const page = await openApp({ expected: /Content Security Policy/ });
  await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'document.title = "planted"';
    document.head.append(script);
  });
  expect(await page.title()).toContain('Ellwand');
});
