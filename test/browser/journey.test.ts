import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { laptop, type Opened, openPage, openStage, picture, type Stage, visit } from './harness.ts';

let stage: Stage;
let opened: Opened;

beforeAll(async () => {
  stage = await openStage({ nowMs: () => Date.parse('2026-09-05T09:00:00Z') });
  opened = await openPage(stage, laptop);
  await opened.page.clock.setFixedTime('2026-09-05T09:00:00Z');
});
afterAll(() => stage?.close());

// Invented normals of a maritime place with cold winters: mean daily maximum and minimum of each month, °C.
const normals = [
  [6, 1],
  [7, 1],
  [9, 2],
  [12, 4],
  [16, 7],
  [19, 10],
  [21, 12],
  [21, 12],
  [18, 9],
  [14, 7],
  [9, 4],
  [7, 2],
] as const;

describe('from nothing to a printed plan', () => {
  it('begins a group where the tortoises are', async () => {
    const { page } = opened;
    await visit(page, '/');
    await page.getByLabel('Name of the group').fill('Fenwick Lane tortoises');
    await page.getByLabel('Time zone').fill('Europe/London');
    await page.getByLabel('Latitude').fill('52.4');
    await page.getByLabel('Longitude').fill('-1,2');
    await page.getByText('Monthly normals of your place').click();
    const rows = page.locator('.normals tbody tr');
    for (const [index, [max, min]] of normals.entries()) {
      await rows.nth(index).locator('input').nth(0).fill(String(max));
      await rows.nth(index).locator('input').nth(1).fill(String(min));
    }
    await picture(page, 'first-group-1280');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.getByRole('heading', { name: 'The round' }).waitFor();
    await picture(page, 'round-empty-1280');
  });

  it('keeps what was typed when something is wrong, and says what', async () => {
    const { page } = opened;
    await visit(page, '/animals');
    await picture(page, 'animals-empty-1280');
    await page.getByRole('link', { name: 'Add an animal' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Sedge');
    await page.getByLabel('Mass').fill('about a kilo');
    await page.getByRole('button', { name: 'Save the animal' }).click();
    await page.getByText('This is needed.').waitFor();
    expect(await page.getByLabel('Mass').inputValue()).toBe('about a kilo');
    await page.getByText('This is not a number.', { exact: false }).waitFor();
    await page.reload();
    expect(await page.getByLabel('Name', { exact: true }).inputValue()).toBe('Sedge');
  });

  it('records an animal and judges it', async () => {
    const { page } = opened;
    await page.getByLabel('Species').selectOption('Testudo hermanni boettgeri');
    await page.getByRole('radio', { name: 'female', exact: true }).check({ force: true });
    await page.getByLabel('Hatched on').fill('2009-08-14');
    await page.getByLabel('Came to you on').fill('2012-05-01');
    await page.getByLabel('Winters it has slept').fill('14');
    await page.getByLabel('Mass').fill('1240');
    await page.getByLabel('Straight carapace length').fill('178');
    await picture(page, 'new-animal-1280');
    await page.getByRole('button', { name: 'Save the animal' }).click();
    await page.getByRole('heading', { name: 'Sedge', level: 1 }).waitFor();
    await page.getByText('Wait: something is missing or borderline.').waitFor();
    await picture(page, 'animal-new-1280');
  });

  it('examines it, and the verdict follows', async () => {
    const { page } = opened;
    await page.getByRole('link', { name: 'Examine it' }).first().click();
    await page.getByRole('heading', { name: 'Examine Sedge' }).waitFor();
    for (const part of await page.locator('.exam-part').all())
      await part.getByRole('radio').first().check({ force: true });
    for (const question of ['Did it eat normally?', 'Was the weight steady or rising?', 'Does it drink or soak'])
      await page.getByRole('group', { name: question }).getByRole('radio', { name: 'Yes' }).check({ force: true });
    for (const question of ['Is she carrying eggs?', 'Was it ill', 'Was it treated'])
      await page
        .getByRole('group', { name: question })
        .getByRole('radio', { name: 'No', exact: true })
        .check({ force: true });
    await page
      .getByRole('group', { name: 'Did a vet see it?' })
      .getByRole('radio', { name: 'Yes' })
      .check({ force: true });
    await picture(page, 'examination-1280');
    await page.getByRole('button', { name: 'Save the examination' }).click();
    await page.getByRole('heading', { name: 'Sedge', level: 1 }).waitFor();
    await page.getByText('Write down').click();
    await page.getByLabel('What', { exact: true }).selectOption('parasite-check');
    await page.locator('form', { hasText: 'From or on' }).getByRole('button', { name: 'Save' }).click();
    await page.locator('dd', { hasText: 'Droppings checked for parasites' }).waitFor();
    await page.getByText('It may go down.').waitFor();
    await picture(page, 'animal-1280');
  });

  it('builds a box in a place and sees its winters', async () => {
    const { page } = opened;
    await visit(page, '/places/build');
    await page.getByText('Worst of 30 winters', { exact: false }).waitFor({ timeout: 30_000 });
    const wall = page.getByRole('spinbutton', { name: 'Thickness of the wall' });
    await wall.focus();
    await page.keyboard.press('ArrowUp');
    expect(await wall.getAttribute('aria-valuetext')).toContain('45');
    await page.getByRole('heading', { name: 'What would help most' }).waitFor({ timeout: 30_000 });
    await page.getByRole('button', { name: 'Keep this build beside the next' }).click();
    await page.getByRole('spinbutton', { name: 'Water bottles' }).click();
    await picture(page, 'builder-1280');
    await page.getByLabel('Name of the box').fill('box 1');
    await page.getByLabel('Name of the place').fill('Brick store');
    await page.getByRole('button', { name: 'Save this box' }).click();
    await page.getByRole('heading', { name: 'Brick store' }).waitFor();
    await picture(page, 'places-1280');
  });

  it('plans the winter, moves the sleeping day, and keeps both with their reasons', async () => {
    const { page } = opened;
    await visit(page, '/plans');
    await page.getByRole('link', { name: 'Sedge' }).click();
    await page.getByRole('button', { name: 'Save this plan' }).click();
    await page.getByRole('button', { name: 'Save this plan' }).waitFor({ state: 'detached' });
    await picture(page, 'plan-1280');
    const day = page.getByLabel('First day asleep', { exact: true }).first();
    const before = await day.inputValue();
    await page.getByRole('button', { name: 'A day later' }).click();
    await page.getByText('Everything below already shows the change').waitFor();
    await page.getByLabel('Why it is moved').fill('the vet comes a day later');
    await page.getByRole('button', { name: 'Save this plan' }).click();
    await page.getByText('What was moved, and why').waitFor();
    expect(await day.inputValue()).not.toBe(before);
  });

  it('prints the plan on paper, black on white, without the controls', async () => {
    const { page } = opened;
    const pdf = await page.pdf({ format: 'A4' });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByRole('button', { name: 'A day later' }).isVisible()).toBe(false);
    expect(await page.getByRole('heading', { name: 'What to do, by date' }).isVisible()).toBe(true);
    await picture(page, 'plan-print');
    await page.emulateMedia({ media: null });
  });

  it('lists what is due today', async () => {
    const { page } = opened;
    await visit(page, '/');
    await page.getByRole('heading', { name: 'The round' }).waitFor();
    await picture(page, 'round-journey-1280');
  });

  it('had nothing to complain of', () => {
    expect(opened.complaints).toEqual([]);
  });
});
