// licences.txt of a build: the packages that it ships, whole or in part, and the licence of each.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import webpack from "webpack";

const NAME = "licences";
const RULE = "=".repeat(80);

/** The folder of the package that a bundled file belongs to. */
function folderOf(file) {
  return /^.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+/.exec(file ?? "")?.[0];
}

/** What a package says of its licence: its name, and the text where it brings one. */
function licenceOf(folder) {
  const said = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const file = readdirSync(folder).find((name) => /^(licen[cs]e|copying)(\.|$)/i.test(name));
  const text = file ? readFileSync(join(folder, file), "utf8") : (said.homepage ?? "");
  const title = [said.name, said.version, said.license].filter(Boolean).join(", ");
  return `${RULE}\n${title}\n${RULE}\n\n${text.trim()}\n`;
}

/** `copied` names the folders of the packages whose files are copied as they are. */
export class Licences {
  constructor(copied = []) {
    this.copied = copied;
  }

  apply(compiler) {
    compiler.hooks.thisCompilation.tap(NAME, (compilation) => {
      const folders = new Set(this.copied);
      compilation.hooks.finishModules.tap(NAME, (modules) => {
        for (const { resource } of modules) folders.add(folderOf(resource));
        folders.delete(undefined);
      });
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tap({ name: NAME, stage }, () => {
        const text = [...folders].sort().map(licenceOf).join("\n");
        compilation.emitAsset("licences.txt", new webpack.sources.RawSource(text));
      });
    });
  }
}
