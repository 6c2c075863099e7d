import type { BoardGrant, NewLink, Role } from "#shared/protocol/api.ts";
import type { ApiError } from "#shared/protocol/api-errors.ts";
import { call } from "./api-client.ts";

/** Makes a board the way a visitor does. */
export const createBoard = async (origin: string, name = "Six Spare Fuses"): Promise<BoardGrant> =>
  (await call<BoardGrant>(origin, "POST /api/boards", { body: { name } })).body;

/** Makes a link as the board's leader. */
export const createLink = async (
  origin: string,
  leader: BoardGrant,
  role: Role,
  more: object = {},
): Promise<NewLink> =>
  (await call<NewLink>(origin, "POST /api/links", { bearer: leader.token, body: { role, ...more } })).body;

/** Brings another device onto the board, by a fresh link. */
export const joinAs = async (origin: string, leader: BoardGrant, role: Role): Promise<BoardGrant> => {
  const { secret } = await createLink(origin, leader, role);
  return (await call<BoardGrant>(origin, "POST /api/join", { bearer: secret })).body;
};

/** A refusal's status and code. */
export const refusal = async (
  ...request: Parameters<typeof call>
): Promise<{ readonly status: number; readonly error: string; readonly message: string }> => {
  const { status, body } = await call<ApiError>(...request);
  return { status, error: body.error, message: body.message };
};
