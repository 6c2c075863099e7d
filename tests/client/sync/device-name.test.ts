import { expect, test } from "vitest";
import { deviceName } from "#client/sync/device-name.ts";

// Forms of the User-Agent header from memory, after RFC 9110 section 10.1.5 and what browsers send in 2025.
test.each([
  ["Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0", 5, "Phone, Firefox"],
  [
    "Mozilla/5.0 (Windows NT 10.0; Win64; x64; rv:140.0) Gecko/20100101 Firefox/140.0",
    0,
    "Computer, Firefox",
  ],
  [
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.5 Mobile/15E148 Safari/604.1",
    5,
    "Phone, Safari",
  ],
  [
    "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.5 Safari/605.1.15",
    5,
    "Tablet, Safari",
  ],
  [
    "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.5 Safari/605.1.15",
    0,
    "Computer, Safari",
  ],
  [
    "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/138.0.0.0 Safari/537.36",
    5,
    "Tablet, Chrome",
  ],
  [
    "Mozilla/5.0 (X11; Linux x86_64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/138.0.0.0 Safari/537.36 Edg/138.0.0.0",
    0,
    "Computer, Edge",
  ],
  ["", 0, "Computer"],
])("%s with %i fingers is a %s", (userAgent, maxTouchPoints, name) => {
  expect(deviceName({ userAgent, maxTouchPoints })).toBe(name);
});
