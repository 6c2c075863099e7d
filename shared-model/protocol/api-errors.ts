/** Every refusal: the HTTP status and one sentence for people. */
export const API_ERRORS = {
  "bad-request": { status: 400, message: "The server could not read this request." },
  "unknown-device": {
    status: 401,
    message: "This device is not known to the board. Open your joining link again.",
  },
  "device-removed": {
    status: 401,
    message: "A leader has removed this device from the board. Ask for a new link to come back.",
  },
  "way-in-ended": {
    status: 401,
    message: "This device's time on the board is over. Ask for a new link to come back.",
  },
  "unknown-code": {
    status: 401,
    message: "This recovery code is not known. Check every letter; a code that was used or replaced is void.",
  },
  "leaders-only": { status: 403, message: "Only a leader of the board can do this." },
  "guests-look": { status: 403, message: "This link only lets you look at the board." },
  "own-gig-only": { status: 403, message: "A dep's link shows one gig and nothing else of the board." },
  "no-gig": {
    status: 403,
    message: "This link names no gig or no player. Ask the band's leader for a new one.",
  },
  "not-a-dep": { status: 403, message: "This address is for deps. Open the gig on the board instead." },
  "pick-a-name": { status: 403, message: "Say first who you are: pick your name under People." },
  "not-confirmed": {
    status: 403,
    message:
      "This device is not confirmed as yours yet. Confirm it on your other device, or ask a leader, under People.",
  },
  "other-origin": { status: 403, message: "Another site's page may not use this server." },
  "creating-disabled": { status: 403, message: "This server does not let visitors create boards." },
  "not-found": { status: 404, message: "There is nothing at this address." },
  "gig-gone": {
    status: 404,
    message:
      "This gig, or your place in it, is not on the band's board any more. Ask whoever sent you the link.",
  },
  "no-demo": { status: 404, message: "This server has no demo band." },
  "unknown-link": {
    status: 404,
    message: "This link is not known. Check that you copied all of it, or ask for a new one.",
  },
  "last-leader": {
    status: 409,
    message: "This is the board's last leading device. Let another leader in first.",
  },
  "name-differs": {
    status: 409,
    message: "The name you typed is not the band's name. Nothing was erased.",
  },
  "unknown-dep": {
    status: 409,
    message:
      "The server does not know this dep or this gig yet. Wait until everything is saved and try again.",
  },
  "private-full": {
    status: 409,
    message: "There is no room for more of your own notes. Delete one first.",
  },
  "newer-board": {
    status: 409,
    message:
      "A newer release than this server's has written to the board. Ask whoever runs the server to bring it up to date.",
  },
  "season-closed": {
    status: 409,
    message: "This season was closed. Reload the page to go on with the new one.",
  },
  "wrong-method": { status: 405, message: "This address does not take that kind of request." },
  "link-expired": { status: 410, message: "This link has expired. Ask the band's leader for a new one." },
  "link-used-up": {
    status: 410,
    message: "This link has been used as often as it may be. Ask the band's leader for a new one.",
  },
  "board-erased": { status: 410, message: "This board was erased by its leader." },
  "link-revoked": { status: 410, message: "This link was withdrawn. Ask the band's leader for a new one." },
  "demo-restarted": { status: 410, message: "The demo was started afresh. Open it again to go on." },
  "too-large": { status: 413, message: "This request is larger than the server takes." },
  "not-json": { status: 415, message: "The request must be JSON." },
  "too-many": { status: 429, message: "Too many tries from this address. Wait a minute and try again." },
  "board-full": {
    status: 507,
    message: "This board has reached the size this server allows. Ask whoever runs the server.",
  },
  "server-mistake": { status: 500, message: "The server made a mistake. Try again." },
  "not-stored": { status: 503, message: "The server cannot store anything at the moment. Try again later." },
} as const satisfies Record<string, { readonly status: number; readonly message: string }>;

export type ApiErrorCode = keyof typeof API_ERRORS;

/** Body of every refusal. */
export interface ApiError {
  readonly error: ApiErrorCode;
  readonly message: string;
}
