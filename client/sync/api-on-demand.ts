import { err, type Result } from "#shared/lib/result.ts";
import type { Api } from "./api.ts";
import { type ApiProblem, OFFLINE } from "./api-problem.ts";

type Call = (...args: readonly unknown[]) => Promise<Result<unknown, ApiProblem>>;

/**
 * The API as a part of the page that each call fetches first, as no screen needs it to stand. A part that cannot be
 * had is a server that cannot be reached: whoever tries again fetches it again.
 */
export const apiOnDemand = (load: () => Promise<Api>): Api => {
  const call =
    (name: keyof Api): Call =>
    async (...args) => {
      const api = await load().catch(() => null);
      return api === null ? err(OFFLINE) : (api[name] as Call)(...args);
    };
  return new Proxy({} as Api, { get: (_, name) => call(name as keyof Api) });
};
