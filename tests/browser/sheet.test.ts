import { expect, test } from 'vitest';
import { notebookText } from '../support/notebook.ts';
import {
  editorIsHere,
  goBack,
  keep,
  moved,
  numbers,
  openFieldfare,
  row,
  standOn,
  told,
  values,
} from './sheet-page.ts';
import { drop, openApp } from './support.ts';

test('a first visit opens a living notebook, and a number changes at the first key', async () => {
  const page = await openApp();
  await row(page, 'stitch gauge').waitFor();
  await page.locator('.hint').waitFor();
  const before = await numbers(page, 'finished chest');
  expect(before.length).toBeGreaterThan(3);
  await page.keyboard.press('-');
  expect(await numbers(page, 'finished chest')).not.toEqual(before);
  await page.locator('.trial-bar').waitFor();
});

test('what a first visit is told is about the notebook it began with, and no other', async () => {
  const page = await openApp();
  await page.locator('.hint').waitFor();
  await page.locator('.nav').getByRole('button', { name: 'Fit a sock', exact: true }).click();
  await row(page, 'foot girth').waitFor();
  expect(await page.locator('.hint').count()).toBe(0);
  // A plan for each wearer stands within its own column.
  const plans = () =>
    values(page, 'calf shaping').evaluateAll((all) => all.map((one) => one.scrollWidth <= one.clientWidth));
  await expect.poll(plans).toEqual([true, true, true]);
});

test('in the resizing notebook a nudge of the stitch gauge moves every size, and says what the size was', async () => {
  const page = await openApp();
  await standOn(page, 'stitch gauge');
  const before = await numbers(page, 'finished chest');
  const size = await numbers(page, 'size to follow');
  for (let nudges = 0; nudges < 14 && (await numbers(page, 'size to follow'))[0] === size[0]; nudges += 1)
    await page.keyboard.press('-');
  const after = await numbers(page, 'finished chest');
  expect(after).toHaveLength(before.length);
  expect(after.filter((text, i) => text === before[i])).toEqual([]);
  expect(await told(page, 'size to follow')).toContain(`was ${size[0]}`);
  const small = await values(page, 'finished chest').locator('small').allTextContents();
  expect(small).toHaveLength(before.length);
  for (const difference of small) expect(difference).toMatch(/^\+/);
  expect(await moved(page)).toContain('finished chest');
  await expect.poll(() => page.locator('.strand .knot').count()).toBeGreaterThan(2);
});

test('every size, the strand, the sentence beside the size: numbers checked by hand', async () => {
  const page = await openFieldfare();
  // 192, 210, 231, 252 sts at 21 sts / 4 in; at 18 sts / 4 in each is 7/6 as wide.
  expect(await numbers(page, 'finished chest')).toEqual(['36½', '40', '44', '48']);
  await standOn(page, 'stitch gauge');
  for (let i = 0; i < 6; i += 1) await page.keyboard.press('-');
  expect(await numbers(page, 'stitch gauge')).toEqual(['18']);
  expect(await numbers(page, 'finished chest')).toEqual(['42¾', '46¾', '51¼', '56']);
  expect(await told(page, 'size to follow')).toMatch(/^size to follow XS was S/);
  expect(await page.locator('.head.pick .label').textContent()).toBe('XS');
  expect(await page.locator('.trial-bar').textContent()).toMatch(/size to follow: S\s+XS/);
  expect(await moved(page)).toEqual(
    expect.arrayContaining(['finished chest', 'ease', 'size to follow', 'own count', 'neck', 'buttonband']),
  );
  expect(await moved(page)).not.toContain('yoke rows');
  await expect.poll(() => page.locator('.strand .knot').count()).toBe((await moved(page)).length);
});

test('keeping makes the trial the notebook’s own, as one step of undo', async () => {
  const page = await openFieldfare();
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  await page.keyboard.press('-');
  await row(page, 'stitch gauge').getByRole('button', { name: 'keep 20' }).click();
  expect(await page.locator('.trial-bar').count()).toBe(0);
  expect(await values(page, 'finished chest').locator('small').allTextContents()).toEqual(
    expect.not.arrayContaining([expect.stringMatching(/./)]),
  );
  expect(await numbers(page, 'stitch gauge')).toEqual(['20']);
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('ControlOrMeta+z');
  expect(await numbers(page, 'stitch gauge')).toEqual(['21']);
});

test('going back gives every value back', async () => {
  const page = await openFieldfare();
  const before = await numbers(page, 'finished chest');
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('+');
  expect(await numbers(page, 'finished chest')).not.toEqual(before);
  await row(page, 'stitch gauge').getByRole('button', { name: 'back to 21' }).click();
  expect(await numbers(page, 'finished chest')).toEqual(before);
  expect(await page.locator('.trial-bar').count()).toBe(0);
});

test('undo inside a trial steps back one nudge', async () => {
  const page = await openFieldfare();
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  await page.keyboard.press('-');
  await page.keyboard.press('ControlOrMeta+z');
  expect(await numbers(page, 'stitch gauge')).toEqual(['20½']);
});

test('a reload in mid-trial finds the trial as it was', async () => {
  const page = await openFieldfare();
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  await page.keyboard.press('-');
  const tried = await numbers(page, 'finished chest');
  await page.waitForTimeout(1200); // Everything is kept within a second.
  await page.reload();
  await page.locator('.trial-bar').waitFor();
  expect(await numbers(page, 'finished chest')).toEqual(tried);
  await goBack(page);
  expect(await numbers(page, 'stitch gauge')).toEqual(['21']);
});

test('keep and back stand once: in the row, or at the foot while the row is out of sight or several are tried', async () => {
  const page = await openFieldfare();
  const ways = () => page.getByRole('button', { name: /^(keep|back to|go back)/i }).allTextContents();
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  await expect.poll(ways).toEqual(['keep 20½', 'back to 21']);
  await page.setViewportSize({ width: 1440, height: 320 });
  await standOn(page, 'buttonband');
  await expect.poll(ways).toEqual(['keep 20½', 'back to 21', 'Go back', 'Keep it']); // The first two are scrolled away.
  await expect
    .poll(() =>
      row(page, 'stitch gauge')
        .locator('.offers')
        .boundingBox()
        .then((box) => (box?.y ?? 0) < 0),
    )
    .toBe(true);
  await page.setViewportSize({ width: 1440, height: 900 });
  await standOn(page, 'chest');
  await page.keyboard.press('+');
  await expect
    .poll(ways)
    .toEqual(['keep 20½', 'back to 21', 'keep 37¼', 'back to 37', 'Go back on all', 'Keep all 2']);
  await keep(page);
  expect(await numbers(page, 'chest')).toEqual(['37¼']);
});

test('while a change is tried the drawings say so, and the steps stand as kept unless they are asked for', async () => {
  const page = await openApp({ height: 1600 });
  const steps = page.locator('.panel[data-tab="knit"]');
  const yoke = () => steps.locator('.steps > li', { hasText: 'Work the yoke' }).innerText();
  await standOn(page, 'row gauge');
  const kept = await yoke();
  for (let i = 0; i < 4; i += 1) await page.keyboard.press('-');
  await page.locator('.panel h2', { hasText: 'Schematic as tried' }).waitFor();
  await steps.getByText('As kept, without the change you are trying.').waitFor();
  expect(await yoke()).toBe(kept);
  await steps.getByRole('button', { name: 'show as tried' }).click();
  await expect.poll(yoke).not.toBe(kept);
  expect(await steps.getByRole('checkbox', { name: 'step 1 done' }).isDisabled()).toBe(true);
  await goBack(page);
  await expect.poll(yoke).toBe(kept);
  expect(await steps.locator('.steps-tried').count()).toBe(0);
});

test('the strand ends at its rows while a formula is written, in a window higher than the sheet too', async () => {
  const page = await openFieldfare({ height: 2400 });
  await standOn(page, 'finished chest');
  /** How far below its row's top each knot is. */
  const knots = () =>
    page.evaluate(() => {
      const tops = [...document.querySelectorAll('.row.fed')].map((one) => one.getBoundingClientRect().top);
      const at = [...document.querySelectorAll('.knot')].map((one) => {
        const { top, height } = one.getBoundingClientRect();
        return top + height / 2;
      });
      return at.map((y, i) => Math.round(y - (tops[i] ?? 0)));
    });
  await expect.poll(async () => (await knots()).length).toBeGreaterThan(0);
  const before = await knots();
  await page.keyboard.press(' ');
  await page.keyboard.press('Enter');
  await page.locator('.strip .editor').waitFor();
  await expect.poll(knots).toEqual(before);
});

test('a row keeps its height while its value is written, and the sentence about a mistake lies over the next', async () => {
  const page = await openFieldfare();
  await editorIsHere(page);
  const high = async () => Math.round((await row(page, 'chest').boundingBox())?.height ?? 0);
  const before = await high();
  await standOn(page, 'chest');
  await page.keyboard.type('37 stone');
  await row(page, 'chest').locator('.mistake').waitFor();
  expect(await high()).toBe(before);
});

test('the mouse over a typed value shows − and +, and they nudge it at once', async () => {
  const page = await openFieldfare();
  await standOn(page, 'stitch gauge');
  await row(page, 'chest').locator('.n').hover();
  await page.waitForTimeout(350); // Sooner a press is not meant for what has just come under the mouse.
  await row(page, 'chest').getByRole('button', { name: 'more' }).first().click();
  expect(await numbers(page, 'chest')).toEqual(['37¼']);
  // The same two go on from there, now that she stands there.
  await row(page, 'chest').getByRole('button', { name: 'more', exact: true }).click();
  expect(await numbers(page, 'chest')).toEqual(['37½']);
  await values(page, 'pattern body stitches').nth(2).hover();
  await page.waitForTimeout(350);
  await row(page, 'pattern body stitches').getByRole('button', { name: 'less' }).click();
  expect(await numbers(page, 'pattern body stitches')).toEqual(['192', '210', '230', '252']);
  // A press on a button that has only just appeared there goes to the value.
  await values(page, 'pattern body stitches')
    .nth(3)
    .evaluate(async (value) => {
      value.dispatchEvent(new PointerEvent('pointerover', { bubbles: true, pointerType: 'mouse' }));
      await Promise.resolve();
      value.querySelector<HTMLElement>('.step.less')?.click();
    });
  expect(await numbers(page, 'pattern body stitches')).toEqual(['192', '210', '230', '252']);
  expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('252');
});

test('with Shift a nudge goes ten steps; inside an opened value the arrows nudge', async () => {
  const page = await openFieldfare();
  await standOn(page, 'chest');
  await page.keyboard.press('Shift+NumpadAdd');
  expect(await numbers(page, 'chest')).toEqual(['39½']);
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  expect(await numbers(page, 'chest')).toEqual(['39¼']);
});

test('workings unfold in their row: names, numbers, result; and fold again', async () => {
  const page = await openFieldfare();
  await standOn(page, 'own count');
  await page.keyboard.press(' ');
  const workings = row(page, 'own count').locator('.workings');
  await workings.waitFor();
  const text = await workings.textContent();
  expect(text).toContain('(chest + ease wanted) × stitch gauge');
  expect(text).toContain('37 in');
  expect(text).toContain('210');
  expect(await page.locator('.row.used > .name .nm').allTextContents()).toEqual(
    expect.arrayContaining(['chest', 'ease wanted', 'stitch gauge']),
  );
  await page.keyboard.press(' ');
  expect(await workings.count()).toBe(0);
});

test('inches or centimetres, for the whole notebook', async () => {
  const page = await openFieldfare();
  await page.locator('.header .unit-switch label', { hasText: 'cm' }).click();
  // 210 sts at 21 sts / 4 in are 40 in, 101.6 cm, shown to half a centimetre.
  expect((await numbers(page, 'finished chest'))[1]).toBe('101.5');
  expect(await told(page, 'finished chest')).toMatch(/^finished chest cm/);
  await page.locator('.header .unit-switch label', { hasText: 'in' }).click();
  expect((await numbers(page, 'finished chest'))[1]).toBe('40');
});

test('what changed is said in one polite region, and only there', async () => {
  const page = await openFieldfare();
  await standOn(page, 'stitch gauge');
  await page.keyboard.press('-');
  await page.waitForFunction(() =>
    /stitch gauge/.test(document.querySelector('[role=status]')?.textContent ?? ''),
  );
  expect(await page.locator('[role=status], output, [aria-live]').count()).toBe(1);
});

test('a click on a column’s head chooses it; one click goes back to following', async () => {
  const page = await openFieldfare();
  await page.getByRole('columnheader', { name: 'L', exact: true }).click();
  expect(await page.locator('.head.pick .label').textContent()).toBe('L');
  await page.getByRole('button', { name: 'back to size to follow' }).click();
  expect(await page.locator('.head.pick .label').textContent()).toBe('S');
});

test('every note is read whole where it stands, and on a phone where one stands', async () => {
  const page = await openApp();
  await row(page, 'stitch gauge').waitFor();
  const cut = () =>
    page
      .locator('.how .note')
      .evaluateAll((notes) =>
        notes
          .filter((note) => note.scrollHeight > note.clientHeight + 1 && note.clientHeight > 0)
          .map((note) => note.textContent),
      );
  await expect.poll(() => page.locator('.how .note').count()).toBeGreaterThan(50);
  expect(await cut()).toEqual([]);
  await page.setViewportSize({ width: 390, height: 844 });
  await standOn(page, 'size for lengths');
  const note = row(page, 'size for lengths').locator('.how .note');
  await note.waitFor();
  expect(await note.textContent()).toContain('nearest');
  expect(await cut()).toEqual([]);
});

test('dates in columns side by side do not touch', async () => {
  const page = await openApp();
  await page.locator('h1', { hasText: 'Samphire' }).waitFor();
  await drop(page, 'gifts.ellwand.json', notebookText('plan-gifts'));
  await page.locator('h1', { hasText: 'Gifts by midwinter' }).waitFor();
  const dates = values(page, 'needed by').locator('.n');
  await expect.poll(() => dates.count()).toBe(4);
  const boxes = await dates.evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON()));
  for (const [i, box] of boxes.slice(1).entries())
    expect(box.left - (boxes[i]?.right ?? Infinity)).toBeGreaterThan(6);
});

test('a sentence that goes on below stands clear of the squiggle under its dash', async () => {
  const page = await openApp();
  await page.locator('h1', { hasText: 'Samphire' }).waitFor();
  const circle = notebookText('plan-gifts').replace('"14 hours / week"', '"hours_a_week_for_all"');
  await drop(page, 'gifts.ellwand.json', circle);
  await page.locator('h1', { hasText: 'Gifts by midwinter' }).waitFor();
  const dash = values(page, 'hours a week').locator('.n');
  const says = values(page, 'hours a week').locator('.says');
  await says.waitFor();
  const lines = await says.evaluate((one) => [...one.getClientRects()].map(({ left }) => left));
  expect(lines.length).toBeGreaterThan(1);
  const { x = 0, width = 0 } = (await dash.boundingBox()) ?? {};
  for (const left of lines) expect(left).toBeGreaterThan(x + width);
});

test('the rings of a date in two lines and of a heading below the heads are whole', async () => {
  const page = await openApp();
  await page.locator('h1', { hasText: 'Samphire' }).waitFor();
  await drop(page, 'gifts.ellwand.json', notebookText('plan-gifts'));
  await page.locator('h1', { hasText: 'Gifts by midwinter' }).waitFor();
  await standOn(page, 'needed by');
  const date = row(page, 'needed by').locator('.v.date > .pill').first();
  // 5 pixels around the date and a ring of 3 lie within its row.
  const room = () =>
    date.evaluate(
      (one) =>
        (one.closest('.row')?.getBoundingClientRect().bottom ?? 0) - one.getBoundingClientRect().bottom,
    );
  await expect.poll(room).toBeGreaterThanOrEqual(8);
  await page.keyboard.press('Control+ArrowDown');
  const title = page.locator('.section-title:focus, .section-head:has(:focus) .section-title');
  await title.waitFor();
  const below = () =>
    title.evaluate(
      (one) =>
        one.getBoundingClientRect().top -
        (document.querySelector('.heads-group')?.getBoundingClientRect().bottom ?? Infinity),
    );
  await expect.poll(below).toBeGreaterThanOrEqual(0);
});

test('on a phone a value tried at the foot of the sheet can be kept from where she is', async () => {
  const page = await openApp({ width: 390, height: 844, touch: true });
  const low = page.locator('.row.typed').nth(9);
  await low.scrollIntoViewIfNeeded();
  await low.locator('.name').tap();
  const nudge = low.locator('.step').first();
  await nudge.waitFor();
  // The value stands just above what lies at the foot, and what is offered for it below that.
  await nudge.evaluate((button: HTMLElement) => {
    const sheet = button.closest('#sheet') as HTMLElement;
    sheet.scrollTop += button.getBoundingClientRect().bottom - (sheet.getBoundingClientRect().bottom - 60);
    button.click();
  });
  await page.locator('.trial-bar').waitFor();
  const canBeKept = () =>
    page.locator('button.keep, .trial-bar .strong-button').evaluateAll((buttons) =>
      buttons.some((button) => {
        const { x, y, width, height } = button.getBoundingClientRect();
        return document.elementFromPoint(x + width / 2, y + height / 2) === button;
      }),
    );
  await page.evaluate(() => new Promise((go) => setTimeout(go, 500)));
  expect(await canBeKept()).toBe(true);
});

test('a double click on a column’s head names it and leaves what was chosen', async () => {
  const page = await openFieldfare();
  const heads = page.locator('.heads .v.head');
  const chosen = () => page.locator('.heads .v.pick .label').allTextContents();
  const before = await chosen();
  await heads.filter({ hasText: 'XS' }).locator('.label').dblclick();
  const field = page.getByRole('textbox', { name: 'a name for XS' });
  await field.fill('tiny');
  await field.click();
  await page.keyboard.press('Enter');
  await expect.poll(() => heads.first().innerText()).toContain('tiny');
  expect(await chosen()).toEqual(before);
  await heads.first().click();
  await expect.poll(chosen).toEqual(['tiny']);
});
