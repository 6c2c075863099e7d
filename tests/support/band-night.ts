/** A network with phones on it for one test; everything is closed when the test ends. */
import { onTestFinished, vi } from "vitest";
import type { OwnChange } from "#client/store/board-store.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import {
  createFakeNetwork,
  type FakeNetwork,
  type FakeNetworkOptions,
  useVirtualClock,
} from "./fake-network.ts";
import { openPhone, type Phone, type PhoneOptions } from "./phone.ts";

export const NIGHT = Date.UTC(2026, 2, 4, 19);

export interface BandNight {
  readonly network: FakeNetwork;
  readonly open: (name: string, more?: Partial<PhoneOptions>) => Promise<Phone>;
  /** Runs a command by name; throws with the sentence when it is refused. */
  readonly run: (phone: Phone, name: string, args: unknown) => OwnChange;
}

export const bandNight = (options: FakeNetworkOptions = {}): BandNight => {
  useVirtualClock(NIGHT);
  const network = createFakeNetwork(options);
  const phones: Phone[] = [];
  onTestFinished(async () => {
    for (const phone of phones) await phone.close();
    vi.useRealTimers();
  });
  return {
    network,
    open: async (name, more = {}) => {
      const phone = await openPhone({ network, name, ...more });
      phones.push(phone);
      return phone;
    },
    run: (phone, name, args) => {
      const command = COMMANDS.get(name);
      if (command === undefined) throw new Error(`No command ${name}`);
      const result = phone.store().run(command, args, name);
      if (!result.ok) throw new Error(result.error.sentence);
      return result.value;
    },
  };
};
