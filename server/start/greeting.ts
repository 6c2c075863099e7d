import { renderUnicodeCompact } from "uqr";
import { joiningAddress } from "#shared/protocol/joining-address.ts";
import type { StartLinks } from "../app.ts";
import type { Addresses } from "./addresses.ts";

/** Light modules around the code, so that a camera finds its edge (ISO/IEC 18004 asks for 4). */
const QUIET_ZONE = 4;

/** What the person who starts the server reads. `links` null = there is no demo, or links are not to be printed. */
export const greeting = ({ here, network }: Addresses, links: StartLinks | null): string => {
  const [phone] = network;
  const lines = ["", "Tightrow is running.", "", row("On this machine", here)];
  // A public origin is both: one line says it.
  const others = network.filter((address) => address !== here);
  for (const address of others) lines.push(row("Phones in the same network", address));
  if (network.length === 0)
    lines.push("  It listens to this machine only; TIGHTROW_HOST=0.0.0.0 lets phones in.");
  else if (others.length > 0)
    lines.push("  Everybody in this network can reach it; TIGHTROW_HOST=127.0.0.1 keeps it to this machine.");
  if (links !== null) {
    lines.push("", "Demo band", row("Lead it from this machine", joiningAddress(here, linkOf(links.leader))));
    lines.push(row("Join it as a member", joiningAddress(phone ?? here, linkOf(links.member))));
    if (phone !== undefined) {
      const code = renderUnicodeCompact(joiningAddress(phone, linkOf(links.member)), { border: QUIET_ZONE });
      lines.push("", "  Point a phone's camera at this to join:", "", code);
    }
  }
  lines.push("", "Ctrl+C stops it.", "");
  return lines.join("\n");
};

const row = (name: string, value: string): string => `  ${name.padEnd(27)} ${value}`;

const linkOf = ({ board, secret }: StartLinks["leader"]) => ({ board, secret });
