import type { Locator } from "playwright-core";
import { expect, test } from "vitest";
import { enterDemo, heading, untilShown } from "#tests/support/app.ts";
import { testApp } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";

const t = testApp();

/** What a reason names, by its address: a song, a part with or without a detail, or a take. */
const NAMED =
  /\/songs\/(?<song>[^/]+)(?:\/part\/(?<chair>[^/]+)(?:\/(?<card>[^/]+))?|\/take\/(?<take>[^/]+))?$/;

test.each([
  ["laptop", LAPTOP],
  ["phone", PHONE],
] as const)("every first reason on the %s's board opens what it names in one tap", async (_, size) => {
  const { page, go } = await t.device(await enterDemo(t.address, "leader", "tomasz"), "/board", size);
  const laptop = size === LAPTOP;
  const reasons = page.getByRole("link", { name: /^Not ready: / });
  const rows = page.locator(laptop ? "[data-song]" : "main li").filter({ has: reasons });
  await rows.first().waitFor();
  const count = await rows.count();
  expect(count).toBeGreaterThanOrEqual(12);
  const kinds = new Set<string>();
  for (let n = 0; n < count; n++) {
    const row = rows.nth(n);
    const reason = row.getByRole("link", { name: /^Not ready: / });
    const sentence = await reason.textContent();
    const title = await row.locator(laptop ? '[data-column="title"]' : "h2 .font-semibold").textContent();
    await reason.click();
    await untilShown(page);
    const named = NAMED.exec(new URL(page.url()).hash)?.groups ?? {};
    expect(await heading(page).textContent(), sentence ?? "").toContain(title ?? "no title");
    const pointedOut =
      named.card !== undefined
        ? page.locator(`[data-card="${named.card}"]`)
        : named.take !== undefined
          ? page.locator(`[data-take="${decodeURIComponent(named.take)}"]`)
          : null;
    if (pointedOut !== null) await expectInSight(pointedOut);
    kinds.add(named.card ? "card" : named.take ? "take" : named.chair ? "part" : "song");
    await go("/board");
  }
  expect([...kinds].sort()).toEqual(["card", "song", "take"]);
});

const expectInSight = async (locator: Locator): Promise<void> => {
  await locator.waitFor();
  await expect
    .poll(() =>
      locator.evaluate((element) => {
        const { top, bottom } = element.getBoundingClientRect();
        return bottom > 0 && top < innerHeight;
      }),
    )
    .toBe(true);
};
