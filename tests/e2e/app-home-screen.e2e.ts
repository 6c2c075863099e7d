import { expect, test } from "vitest";
import { enterDemo, untilKept, untilSaid, untilShown } from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { PHONE } from "#tests/support/browser.ts";

const t = testApp();

test("a start from the home screen without a signal opens the last board where one left it, and says as of when", async () => {
  t.expectComplaints(UNREACHABLE);
  const { page, context, go } = await t.device(
    await enterDemo(t.address, "member", "lucia"),
    "/parts",
    PHONE,
  );
  await untilSaid(page, "all saved");
  await untilKept(page);
  await go("/room/demo-song-tc");
  await context.setOffline(true);
  const manifest = await page.evaluate(async () => (await caches.match("/manifest.webmanifest"))?.json());
  await page.close();
  const started = await context.newPage();
  await started.goto(`${t.address}${manifest.start_url}`);
  await untilShown(started);
  expect(started.url()).toMatch(/\/room\/demo-song-tc$/);
  await untilSaid(started, /^no signal, as of \d\d:\d\d$/);
  const short = await context.newPage();
  await short.goto(`${t.address}${manifest.shortcuts[0].url}`);
  await untilShown(short);
  expect(short.url()).toMatch(/\/parts$/);
});

test("a place on the home screen is offered with a screen one goes to, never in the room, and once", async () => {
  const known = await enterDemo(t.address, "member", "lucia");
  const { page, context, go } = await t.device(known, "/room", PHONE);
  // As on the second day of use, in a browser that offers to install: headless Chromium does not.
  await context.addInitScript(() => {
    localStorage.setItem("tightrow.first-day", "2026-01-01");
    addEventListener("load", () => {
      dispatchEvent(Object.assign(new Event("beforeinstallprompt"), { prompt: async () => {} }));
    });
  });
  await page.reload();
  await untilShown(page);
  const offer = page.getByText("Tightrow can stand on your home screen");
  expect(await offer.count()).toBe(0);
  await go("/room/demo-song-tc");
  expect(await offer.count()).toBe(0);
  await go("/songs");
  await offer.waitFor();
  await page.getByRole("button", { name: "Not on this device" }).click();
  await go("/gigs");
  expect(await offer.count()).toBe(0);
  await go("/settings");
  await page.getByText("Tightrow starts on this device without a signal.").waitFor();
  await page.getByRole("button", { name: "Put it there" }).waitFor();
});
