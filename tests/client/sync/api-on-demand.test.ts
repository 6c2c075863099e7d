import { expect, test } from "vitest";
import type { Api } from "#client/sync/api.ts";
import { apiOnDemand } from "#client/sync/api-on-demand.ts";
import { err, ok } from "#shared/lib/result.ts";

const REVOKED = { code: "link-revoked", message: "This link was withdrawn.", retriable: false } as const;

/** An API whose part of the page can be had or not. */
const setup = () => {
  const page = { reachable: true, calls: [] as unknown[] };
  const part = {
    revokeLink: async (...args: unknown[]) => {
      page.calls.push(args);
      return ok(null);
    },
    join: async () => err(REVOKED),
  } as unknown as Api;
  const api = apiOnDemand(async () => {
    if (!page.reachable) throw new TypeError("Failed to fetch dynamically imported module");
    return part;
  });
  return { api, page };
};

test("a call arrives as it was made, and its answer comes back as it was given", async () => {
  const { api, page } = setup();
  const { revokeLink } = api;
  expect(await revokeLink("token", "link", true)).toEqual(ok(null));
  expect(page.calls).toEqual([["token", "link", true]]);
  expect(await api.join("secret")).toEqual(err(REVOKED));
});

test("while its part of the page cannot be fetched the server counts as out of reach, and the next call fetches again", async () => {
  const { api, page } = setup();
  page.reachable = false;
  const lost = await api.revokeLink("token", "link");
  expect(lost).toMatchObject({ ok: false, error: { code: "offline", retriable: true } });
  expect(page.calls).toEqual([]);
  page.reachable = true;
  expect(await api.revokeLink("token", "link")).toEqual(ok(null));
  expect(page.calls).toEqual([["token", "link"]]);
});
