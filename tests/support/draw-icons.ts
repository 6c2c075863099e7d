/** Draws the PNG icons of the client from its one SVG: `node tests/run.mjs tests/support/draw-icons.ts`. */
import { readFile, writeFile } from "node:fs/promises";
import { resolve } from "node:path";
import { launchBrowser, openPage } from "#tests/support/browser.ts";

const folder = resolve("client/public");
const svg = await readFile(`${folder}/favicon.svg`, "utf8");
const browser = await launchBrowser();
try {
  for (const edge of [192, 512]) {
    const { page } = await openPage(browser, { width: edge, height: edge });
    await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw;height:100vh}</style>${svg}`);
    await writeFile(`${folder}/icon-${edge}.png`, await page.screenshot());
  }
} finally {
  await browser.close();
}
