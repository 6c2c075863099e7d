import { err, ok, type Result } from "#shared/lib/result.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";
import { type AccessPolicy, type DeviceSession, REFUSALS } from "../access/access-policy.ts";
import type { ApiReply, ApiRequest } from "./request.ts";

/** Answers one kind of request; a refusal is the code of its sentence. */
export type Handler = (request: ApiRequest) => Promise<Result<ApiReply, ApiErrorCode>>;

/** Handlers by method and path; `:id` stands for one segment. */
export type Routes = Readonly<Record<string, Handler>>;

/** The device that asks. */
export const admitted = async (
  access: AccessPolicy,
  request: ApiRequest,
): Promise<Result<DeviceSession, ApiErrorCode>> => {
  const admission = await access.admit(request.bearer, null);
  return admission.ok ? ok(admission.session) : err(REFUSALS[admission.refusal].api);
};

/** The device that asks, if it leads its board. */
export const leading = async (
  access: AccessPolicy,
  request: ApiRequest,
): Promise<Result<DeviceSession, ApiErrorCode>> => {
  const session = await admitted(access, request);
  return session.ok && session.value.role !== "leader" ? err("leaders-only") : session;
};

/** The answer that carries a result, or its refusal. */
export const replied = <T extends object>(
  status: number,
  result: Result<T, ApiErrorCode>,
): Result<ApiReply, ApiErrorCode> => (result.ok ? ok({ status, body: result.value }) : result);

/** The answer without a body, or the refusal. */
export const done = (result: Result<null, ApiErrorCode>): Result<ApiReply, ApiErrorCode> =>
  result.ok ? ok({ status: 204 }) : result;
