import type { Configuration } from "webpack";

declare const configs: (env: {
  host?: string;
  WEBPACK_SERVE?: boolean;
}) => Promise<(Configuration & { devServer?: object })[]>;
export default configs;
