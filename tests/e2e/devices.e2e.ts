import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { LAPTOP, type PageOptions, PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing } from "#tests/support/page-checks.ts";

const t = testHarness();

const open = async (path: string, query = "", options: PageOptions = PHONE): Promise<Page> =>
  t.keep(await openScreen(t.browser, t.address, path, { query, ...options })).page;

const said = (page: Page) => page.getByRole("region", { name: "What just happened" });
const devices = (page: Page, person: string) => page.getByRole("region", { name: person, exact: true });

describe("devices", () => {
  test("a leader sees whose they are, when they were here, how they came in, and which nobody vouches for", async () => {
    const page = await open("/people");
    await devices(page, "Lucía Borrasco")
      .getByText("plays · here now · came in on 14 February by: Joining link, for the band")
      .waitFor();
    const unsure = devices(page, "Priya Sundarvane");
    await unsure.getByText("Not confirmed: only a name was picked on it.").waitFor();
    await page.getByRole("button", { name: "Confirm it: Tablet, Chromium, Priya Sundarvane" }).click();
    await said(page).getByText("Tablet, Chromium is confirmed as Priya Sundarvane’s.").waitFor();
    expect(await unsure.getByText("Not confirmed").count()).toBe(0);
    await devices(page, "Nobody has picked a name on these").getByText("A device without a name").waitFor();
  });

  test("a device is renamed, and an empty name is refused in words", async () => {
    const page = await open("/people");
    await page.getByRole("button", { name: "More about Phone, Safari, Priya Sundarvane" }).click();
    await page.getByRole("menuitem", { name: "Rename it" }).click();
    await page.getByLabel("Name of the device").fill(" ");
    await page.getByRole("button", { name: "Save" }).click();
    await page.getByText("Give it a name you will know it by").waitFor();
    await page.getByLabel("Name of the device").fill("Priya's old phone");
    await page.getByRole("button", { name: "Save" }).click();
    await devices(page, "Priya Sundarvane").getByText("Priya's old phone").waitFor();
  });

  test("a device is removed after a question that says what happens to what it had not sent", async () => {
    const page = await open("/people", "", LAPTOP);
    await page.getByRole("button", { name: "More about Phone, Safari, Priya Sundarvane" }).click();
    await page.getByRole("menuitem", { name: "Remove it" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByText("It is cut off at once.").waitFor();
    await dialog.getByText("What it had not sent stays on it").waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await dialog.getByRole("button", { name: "Remove it" }).click();
    await said(page).getByText("Phone, Safari is removed and cut off.").waitFor();
    expect(await devices(page, "Priya Sundarvane").getByRole("listitem").count()).toBe(1);
  });

  test("the last leading device cannot stop leading, and another one that leads first makes it possible", async () => {
    const page = await open("/people");
    const step = async (name: RegExp, act: string) => {
      await page.getByRole("button", { name }).click();
      await page.getByRole("menuitem", { name: act }).click();
      await page.getByRole("dialog").getByRole("button", { name: act }).click();
    };
    await step(/^More about Computer/, "Let it play, not lead");
    await page.getByText("This is the board's last leading device. Let another leader in first.").waitFor();
    await page.getByRole("button", { name: "Leave it" }).click();
    await step(/^More about Phone, Firefox, Lucía/, "Let it lead");
    await devices(page, "Lucía Borrasco").getByText("leads · here now").waitFor();
    await step(/^More about Computer/, "Let it play, not lead");
    await devices(page, "Tomasz Wrzosnowicz (you)")
      .or(devices(page, "Tomasz Wrzosnowicz"))
      .getByText("this device · plays")
      .waitFor();
  });

  test("a member sees their own devices only, and brings in another by a code that works once for a day", async () => {
    const page = await open("/people", "as=priya&role=member");
    await page.getByRole("heading", { name: "Your devices" }).waitFor();
    expect(await devices(page, "Lucía Borrasco").count()).toBe(0);
    await devices(page, "Priya Sundarvane").waitFor();
    await page.getByRole("button", { name: "More about Tablet, Chromium, Priya Sundarvane" }).click();
    expect(await page.getByRole("menuitem").allTextContents()).toEqual(["Rename it", "Remove it"]);
    await page.keyboard.press("Escape");
    await page.getByRole("button", { name: "Add another device of mine" }).click();
    await page.getByText("It works once, and nobody has to pick a name.").waitFor();
    await page.getByRole("img", { name: "Opens the link into Six Spare Fuses" }).locator("path").waitFor();
    await page.getByText("The band’s leader makes the links into this board.").waitFor();
    expect(await overflowing(page)).toEqual([]);
  });
});

describe("links", () => {
  test("a link for one person and one device says so in the form, in the message and in the list", async () => {
    const page = await open("/people", "", LAPTOP);
    await page.getByLabel("It lets in", { exact: true }).selectOption("one device");
    await page.getByLabel("For whom").selectOption("only Min-jae Pardal");
    await page.getByText("Give it to Min-jae Pardal alone.").waitFor();
    await page.getByRole("button", { name: "Make the link" }).click();
    const message = await page.getByLabel("A message, ready to paste").inputValue();
    expect(message).toContain("For Min-jae Pardal: open it on your phone");
    expect(message).not.toContain("pick your name");
    await page.getByText("Links made so far: 5").click();
    await page.getByText("only Min-jae Pardal · open until 4 April · for one device, not used yet").waitFor();
  });

  test("withdrawing names the devices that came in by it, and takes them along only when told to", async () => {
    const page = await open("/people");
    await page.getByText("Links made so far: 4").click();
    await page.getByRole("button", { name: "Withdraw: Joining link, for the band" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByText("They stay on the board unless you tick this.").waitFor();
    await dialog.getByText("Priya Sundarvane (Phone, Safari)").waitFor();
    await dialog.getByLabel("Also remove the 4 devices that came in by it").check();
    await dialog.getByText("They are cut off at once.").waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await dialog.getByRole("button", { name: "Withdraw it" }).click();
    await said(page).getByText("The link is withdrawn, and 4 devices are removed.").waitFor();
    await page.getByText("withdrawn · used 5 times").waitFor();
  });
});

describe("the recovery code", () => {
  test("a new one is made after a question, shown in groups, and gone once it is written down", async () => {
    const page = await open("/people", "", LAPTOP);
    await page.getByRole("button", { name: "Make a new recovery code" }).click();
    await page.getByText("A code made before is void from then on.").waitFor();
    await page.getByRole("button", { name: "Make it" }).click();
    await page.getByText("1M6AY").waitFor();
    await page.evaluate(() => Object.defineProperty(navigator, "clipboard", { value: undefined }));
    await page.getByRole("button", { name: "Copy" }).click();
    await page.getByText("Selected: copy it").waitFor();
    const selected = await page.evaluate(() => getSelection()?.toString() ?? "");
    expect(selected.replace(/[\s-]/g, "")).toBe("1M6AYTQ40GWZ93E8KDHVP7CRBX");
    await page.getByRole("button", { name: "I have written it down" }).click();
    expect(await page.getByText("1M6AY").count()).toBe(0);
  });

  test("whoever lost every device types it as it stands on paper and leads again, with a new code", async () => {
    const page = await t.keep(
      await openScreen(t.browser, t.address, "/people", { ...PHONE, query: "knows=no" }),
    ).page;
    await page.goto(`${t.address}/?knows=no#/`);
    await page.getByText("I lead a band and lost every device").click();
    const field = page.getByLabel("Recovery code");
    const again = page.getByRole("button", { name: "Lead again" });
    await again.click();
    await page.getByText("Write the code as it stands on your paper.").waitFor();
    await field.fill("7zk3q 0vx8m");
    await again.click();
    await page.getByText("This is not a whole recovery code.").waitFor();
    expect(await field.inputValue()).toBe("7zk3q 0vx8m");
    await field.fill("7zk3q ovx8m dltgh r5ncb 2w9epy");
    await again.click();
    await page.getByText("The code you used is void; this is the new one").waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole("button", { name: "Go on without it" }).click();
    await page.waitForFunction(() => location.hash === "#/b/demo/board");
  });
});

describe("seasons and erasing", () => {
  test("closing a season says what it means, then how much smaller the board became", async () => {
    const page = await open("/settings");
    await page.getByRole("button", { name: "Close the season" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByText("Every score stays as it is.").waitFor();
    await dialog.getByText("Phones that are offline now catch up by themselves").waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await dialog.getByRole("button", { name: "Close it" }).click();
    await page.getByText("Season 3 is open. The board went from 239 kB to 96 kB.").waitFor();
    await page.getByText(/^Season 2/).waitFor();
  });

  test("erasing a person says what goes and what stays, and offers the file first", async () => {
    const page = await open("/settings", "", LAPTOP);
    await page.getByText("Erase a person").click();
    expect(await page.getByRole("button", { name: "Erase this person" }).isDisabled()).toBe(true);
    await page.getByLabel("Who").selectOption("Karim Belhossat");
    await page.getByRole("button", { name: "Erase Karim Belhossat" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByText("the history of the board before now").waitFor();
    await dialog.getByText("Backups of the server keep it until they age out.").waitFor();
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      dialog.getByRole("button", { name: "Save the whole board as JSON" }).click(),
    ]);
    expect(download.suggestedFilename()).toContain("board");
    expect(await axeViolations(page)).toEqual([]);
    await dialog.getByRole("button", { name: "Erase for good" }).click();
    await said(page).getByText("Karim Belhossat is erased.").waitFor();
  });

  test("the band is erased only by its name, and then this device is at the start", async () => {
    const page = await open("/settings");
    await page.getByText("Erase the band").click();
    await page.getByRole("button", { name: "Erase Six Spare Fuses" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByLabel(/To be sure/).fill("six spare");
    await dialog.getByRole("button", { name: "Erase for good" }).click();
    await dialog.getByText("Nothing was erased.").waitFor();
    await dialog.getByLabel(/To be sure/).fill("Six Spare Fuses");
    await dialog.getByRole("button", { name: "Erase for good" }).click();
    await page.getByRole("heading", { name: "Which songs are ready, for whom, and why" }).waitFor();
    expect(await page.getByRole("link", { name: "Six Spare Fuses" }).count()).toBe(0);
  });

  test("members are offered neither, and everybody saves what is private to them", async () => {
    const page = await open("/settings", "as=lucia&role=member");
    expect(await page.getByRole("button", { name: "Close the season" }).count()).toBe(0);
    expect(await page.getByText("Erase for good").count()).toBe(0);
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save what is private to you" }).click(),
    ]);
    expect(JSON.parse(readFileSync(await download.path(), "utf8"))).toMatchObject({
      band: "Six Spare Fuses",
      person: "Lucía Borrasco",
      values: { notes: "Hum the low part first." },
    });
  });
});
