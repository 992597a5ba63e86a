import type { Configuration } from "webpack";

declare const configs: (env: { host?: string }) => Promise<(Configuration & { devServer?: object })[]>;
export default configs;
