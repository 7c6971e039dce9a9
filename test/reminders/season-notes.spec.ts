import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import sharp from 'sharp';
import { PlanOutcomeEntity } from '../../src/care-calendar/index.js';
import { addDays, civilDay, isoDateOf } from '../../src/core/units/civil-day.js';
import { yearWheelPicture, yearWheelSvg } from '../../src/reminders/messages/year-wheel-picture.js';
import { type ReminderStack, reminderStack } from './reminder-stack.js';

const WARMEST = civilDay('2026-07-22');
const yearOfWater = (firstDay: string) =>
  Array.from(
    { length: 548 },
    (_, ahead) => 12 + 12 * Math.cos(((civilDay(firstDay) + ahead - WARMEST) * 2 * Math.PI) / 365.25),
  );

describe('Notes of the season', () => {
  let stack: ReminderStack;
  let pondId: string;
  beforeEach(async () => {
    stack = await reminderStack();
    pondId = await stack.homeownersPond();
  });
  afterEach(() => stack.close());

  /** Writes the mail of a Saturday, over a forecast that starts on it. */
  async function mailOf(saturday: string) {
    stack.clock.set(`${saturday}T${saturday < '2026-11-01' ? '13' : '14'}:00:00.000Z`);
    const store = stack.database.company(stack.companyId);
    await stack.database.unitOfWork('water of a plain year', async () => {
      const outcome = (await store.findOne(PlanOutcomeEntity, { pondId }))!;
      const water = yearOfWater(saturday);
      const outlook = { ...outcome.outlook, firstDay: saturday, p50C: water, median7dMeanC: water };
      await stack.database.company(stack.companyId).update(PlanOutcomeEntity, { pondId }, { outlook } as never);
    });
    const before = (await stack.mails()).length;
    await stack.sweep.run();
    return (await stack.mails())[before] ?? null;
  }

  it('come once, with the week in which the water changes over, and read well without the picture', async () => {
    const told: string[] = [];
    for (let on = civilDay('2026-09-26'); on <= civilDay('2026-11-21'); on = addDays(on, 7)) {
      const mail = await mailOf(isoDateOf(on));
      const found = /^THE .* BEGINS$/m.exec(mail?.plainText ?? '')?.[0];
      if (!mail || !found) {
        expect(mail?.pictures ?? []).toEqual([]);
        continue;
      }
      told.push(`${isoDateOf(on)} ${found}`);
      const [picture] = mail.pictures;
      expect(mail.html).toContain(`src="cid:${picture!.cid}"`);
      expect(mail.html).toMatch(
        /alt="The year as a ring of water temperatures, from 32 °F to 75 °F; the hand stands at \d+ (October|November)\./,
      );
      expect(mail.plainText).not.toContain('cid:');
      expect(mail.plainText).toMatch(/The week's mean of the water is\s+below (59|50) °F (now|from about)/);
      expect((await sharp(Buffer.from(picture!.base64, 'base64')).metadata()).format).toBe('png');
    }
    expect(told).toEqual(['2026-10-03 THE AUTUMN OF THE POND BEGINS', '2026-10-31 THE WINTER REST BEGINS']);
    expect((await stack.reminders()).every(({ season }) => season !== null)).toBe(true);
  });

  it('are shown again in a preview that is written nowhere', async () => {
    await mailOf('2026-09-26');
    const preview = await stack.sweep.run({ dryRun: true, asOf: '2026-09-26T13:00:00.000Z' });
    expect(preview.mails).toEqual([]);
  });
});

describe('yearWheelPicture', () => {
  const water = { firstDay: civilDay('2026-10-03'), p50C: yearOfWater('2026-10-03') };

  it('is a small PNG of 480 pixels, the same each time', async () => {
    const [one, two] = [
      await yearWheelPicture(water, water.firstDay, 43),
      await yearWheelPicture(water, water.firstDay, 43),
    ];
    expect(one.equals(two)).toBe(true);
    expect(await sharp(one).metadata()).toMatchObject({ format: 'png', width: 480, height: 480 });
    expect(one.length).toBeLessThan(20_000);
  });

  it('has July on top in the north and January in the south, and the hand at today', () => {
    const hand = (latitude: number, day: string) =>
      /stroke="#9C6509"/.test(yearWheelSvg(water, civilDay(day), latitude)) &&
      /d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)" stroke="#9C6509"/
        .exec(yearWheelSvg(water, civilDay(day), latitude))!
        .slice(3)
        .map(Number);
    expect(hand(43, '2026-07-01')).toMatchObject([expect.closeTo(120, -1), expect.closeTo(22, -1)]);
    expect(hand(-38, '2026-01-01')).toEqual([120, 22]);
    expect(hand(43, '2026-01-01')).toEqual([120, 218]);
  });

  it('needs no font and loads nothing', () => {
    const svg = yearWheelSvg(water, water.firstDay, 43);
    expect(svg).not.toMatch(/<text|font|href|<image|<style/);
    expect((svg.match(/scale\(1\.15\)/g) ?? []).length).toBe(12);
  });
});
