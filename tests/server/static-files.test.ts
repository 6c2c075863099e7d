import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { brotliDecompressSync, gunzipSync } from "node:zlib";
import { expect, onTestFinished, test } from "vitest";
import { startTestServer } from "#tests/support/test-server.ts";

const SCRIPT = "export const words = ['intro', 'bridge', 'outro'];\n".repeat(40);
const PAGE = "<!doctype html><title>Board</title><script type=module src=/assets/index-abc123.js></script>";

const serveClient = async (settings = {}) => {
  const folder = await mkdtemp(join(tmpdir(), "tightrow-client-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  const client = join(folder, "client");
  await mkdir(join(client, "assets"), { recursive: true });
  await writeFile(join(folder, "secret.txt"), "outside");
  await writeFile(join(client, "index.html"), PAGE);
  await writeFile(join(client, "sw.js"), "// worker\n");
  await writeFile(join(client, "assets", "index-abc123.js"), SCRIPT);
  await writeFile(join(client, "assets", "index-abc123.js.br"), "made by the build");
  return startTestServer({ settings: { client, ...settings } });
};

interface Got {
  readonly status: number;
  readonly headers: Record<string, unknown>;
  readonly body: Buffer;
}

/** A plain request: no redirects, no decoding, and the path goes out as it stands. */
const get = (
  port: number,
  path: string,
  headers: Record<string, string> = {},
  method = "GET",
): Promise<Got> =>
  new Promise((resolve, reject) => {
    const outgoing = request({ port, host: "127.0.0.1", path, headers, method }, (response) => {
      const chunks: Buffer[] = [];
      response.on("data", (chunk: Buffer) => chunks.push(chunk));
      response.on("end", () =>
        resolve({ status: response.statusCode ?? 0, headers: response.headers, body: Buffer.concat(chunks) }),
      );
    });
    outgoing.on("error", reject);
    outgoing.end();
  });

test("the page is asked for again each time, hashed files never", async () => {
  const { port } = await serveClient();
  const page = await get(port, "/");
  expect([page.status, page.body.toString(), page.headers["cache-control"]]).toEqual([200, PAGE, "no-cache"]);
  expect(page.headers["content-type"]).toBe("text/html; charset=utf-8");
  const script = await get(port, "/assets/index-abc123.js");
  // RFC 8246: `immutable` keeps browsers from asking again while the file is fresh.
  expect(script.headers["cache-control"]).toBe("public, max-age=31536000, immutable");
  expect(script.headers["content-type"]).toBe("text/javascript; charset=utf-8");
  expect((await get(port, "/sw.js")).headers["cache-control"]).toBe("no-cache");
});

test("a page that did not change is not sent again", async () => {
  const { port } = await serveClient();
  const { etag } = (await get(port, "/")).headers;
  const again = await get(port, "/", { "If-None-Match": String(etag) });
  expect([again.status, again.body.length]).toEqual([304, 0]);
});

test("files are sent in the smallest coding the client takes; a twin of the build is used as it is", async () => {
  const { port } = await serveClient();
  const path = "/assets/index-abc123.js";
  const brotli = await get(port, path, { "Accept-Encoding": "gzip, br" });
  expect([brotli.headers["content-encoding"], brotli.body.toString()]).toEqual(["br", "made by the build"]);
  const gzip = await get(port, path, { "Accept-Encoding": "gzip, br;q=0" });
  expect(gzip.headers["content-encoding"]).toBe("gzip");
  expect(gunzipSync(gzip.body).toString()).toBe(SCRIPT);
  expect(gzip.body.length).toBeLessThan(SCRIPT.length / 2);
  const plain = await get(port, path);
  expect([plain.headers["content-encoding"], plain.headers.vary]).toEqual([undefined, "Accept-Encoding"]);
  expect(plain.body.toString()).toBe(SCRIPT);
  const page = await get(port, "/", { "Accept-Encoding": "br" });
  expect(brotliDecompressSync(page.body).toString()).toBe(PAGE);
});

test("the page's own addresses get the page, missing files do not", async () => {
  const { port } = await serveClient();
  expect((await get(port, "/songs?sort=worst")).body.toString()).toBe(PAGE);
  expect((await get(port, "/assets/gone-999.js")).status).toBe(404);
});

test("no path leads out of the folder", async () => {
  const { port } = await serveClient();
  for (const path of [
    "/../secret.txt",
    "/..%2fsecret.txt",
    "/%2e%2e/secret.txt",
    "/assets/../../secret.txt",
    "/..\\secret.txt",
    "/%00/../secret.txt",
    "//secret.txt",
  ]) {
    const got = await get(port, path);
    expect(got.body.toString()).not.toContain("outside");
    expect(got.status).toBe(404);
  }
});

test("only reading is allowed, and HEAD has no body", async () => {
  const { port } = await serveClient();
  const post = await get(port, "/", {}, "POST");
  expect([post.status, post.headers.allow]).toEqual([405, "GET, HEAD"]);
  const head = await get(port, "/", {}, "HEAD");
  expect([head.status, head.headers["content-length"], head.body.length]).toEqual([200, `${PAGE.length}`, 0]);
});

test("without a built client the page says what to do", async () => {
  const { port } = await startTestServer();
  const got = await get(port, "/");
  expect([got.status, got.body.toString()]).toEqual([
    503,
    "The client is not built yet. Run: npm run build\n",
  ]);
});

test("[SRV-4] page, files, API and refusals all carry the same protective headers", async () => {
  const { port } = await serveClient();
  // Directives as in W3C Content Security Policy Level 3 and Trusted Types.
  const policy =
    "default-src 'none'; script-src 'self'; style-src 'self'; style-src-attr 'none'; img-src 'self' data:; " +
    "font-src 'self'; connect-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; " +
    "form-action 'none'; frame-ancestors 'none'; require-trusted-types-for 'script'; trusted-types tightrow-worker";
  for (const path of [
    "/",
    "/assets/index-abc123.js",
    "/assets/gone.js",
    "/healthz",
    "/api/session",
    "/api/nothing",
  ]) {
    const { headers } = await get(port, path);
    expect(headers["content-security-policy"]).toBe(policy);
    expect(headers["x-content-type-options"]).toBe("nosniff");
    expect(headers["referrer-policy"]).toBe("no-referrer");
    expect(headers["cross-origin-opener-policy"]).toBe("same-origin");
    expect(headers["cross-origin-resource-policy"]).toBe("same-origin");
    expect(headers["strict-transport-security"]).toBeUndefined();
    expect(headers["access-control-allow-origin"]).toBeUndefined();
  }
});

test("browsers may insist on https where people reach the server by it", async () => {
  const { port } = await serveClient({ publicUrl: "https://board.example.org" });
  // RFC 6797, section 6.1: the header's one required directive is max-age, in seconds.
  for (const path of ["/", "/api/session"])
    expect((await get(port, path)).headers["strict-transport-security"]).toBe("max-age=63072000");
});
