import { mergeConfig } from "vite";
import { tightrowDevServer } from "../../server/dev-plugin.ts";
import client from "../vite.config.ts";

/** `npm run dev`: the client with reload on change, and the real server in the same process. */
export default mergeConfig(client, { plugins: [tightrowDevServer()] });
