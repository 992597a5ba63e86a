/** Serves the local sheet once for all browser tests, by the same configuration as npm start. */
import webpack from "webpack";
import WebpackDevServer from "webpack-dev-server";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  interface ProvidedContext {
    address: string;
  }
}

export default async function serve(project: TestProject) {
  const configs = (await import("../../webpack.config.mjs")).default;
  const localsheet = (await configs({ WEBPACK_SERVE: true })).find(
    (config) => config.name === "localsheet",
  );
  const compiler = webpack(localsheet as webpack.Configuration);
  if (!compiler) throw new Error("webpack made no compiler");
  const options = { ...localsheet?.devServer, open: false, port: "auto" };
  const server = new WebpackDevServer(options as WebpackDevServer.Configuration, compiler);
  await server.start();
  await new Promise((resolve) => server.middleware?.waitUntilValid(resolve));
  const { port } = server.server?.address() as { port: number };
  project.provide("address", `http://localhost:${port}/`);
  return () => server.stop();
}
