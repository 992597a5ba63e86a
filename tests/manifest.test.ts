import { readFileSync } from "node:fs";
import { OfficeAddinManifest } from "office-addin-manifest";
import { describe, expect, test } from "vitest";
import { NAMESPACE } from "../functions/catalog/entry";

const xml = readFileSync("manifest.xml", "utf8");

/** Child elements in the order that Excel's schema wants (Microsoft, "manifest element ordering"). */
const ORDER: Record<string, string[]> = {
  OfficeApp:
    "Id Version ProviderName DefaultLocale DisplayName Description IconUrl HighResolutionIconUrl SupportUrl Hosts Requirements DefaultSettings Permissions VersionOverrides".split(
      " ",
    ),
  Host: ["Runtimes", "AllFormFactors", "DesktopFormFactor"],
  DesktopFormFactor: ["GetStarted", "FunctionFile", "ExtensionPoint"],
  CustomFunctions: ["Script", "Page", "Metadata", "Namespace"],
  Group: ["Label", "Icon", "Control"],
  Control: ["Label", "Supertip", "Icon", "Action"],
  Resources: ["bt:Images", "bt:Urls", "bt:ShortStrings", "bt:LongStrings"],
};

interface Node {
  name: string;
  attributes: string;
  children: Node[];
}

/** The elements as a tree; enough of XML for a file that has no comments, CDATA or entities. */
function treeOf(text: string): Node {
  const root: Node = { name: "", attributes: "", children: [] };
  const path = [root];
  for (const [, close, name, attributes, empty] of text.matchAll(/<(\/?)([\w:]+)([^>]*?)(\/?)>/g)) {
    if (close) {
      expect(path.pop()?.name).toBe(name);
      continue;
    }
    const node = { name, attributes, children: [] };
    path[path.length - 1].children.push(node);
    if (!empty) path.push(node);
  }
  expect(path).toHaveLength(1);
  return root.children[0];
}

function allOf(node: Node): Node[] {
  return [node, ...node.children.flatMap(allOf)];
}

const nodes = allOf(treeOf(xml.replace(/<\?.*?\?>/, "")));

describe("manifest.xml", () => {
  test("reads as an add-in for Excel with Microsoft's own reader", async () => {
    const info = await OfficeAddinManifest.readManifestFile("manifest.xml");
    expect(info.displayName).toBe("Mistwright");
    expect(info.hosts).toEqual(["Workbook"]);
    expect(info.officeAppType).toBe("TaskPaneApp");
    expect(info.id).toMatch(
      /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/,
    );
  });

  test.each(Object.entries(ORDER))("%s has its elements in order", (name, order) => {
    const found = nodes.filter((node) => {
      return node.name === name || node.attributes.includes(`xsi:type="${name}"`);
    });
    const holders = found.filter((node) => node.children.length > 0);
    expect(holders.length).toBeGreaterThan(0);
    for (const holder of holders) {
      const names = holder.children.map((child) => child.name);
      expect(names).toEqual(order.filter((wanted) => names.includes(wanted)));
    }
  });

  test("every resource that is asked for is there, and every one that is there is asked for", () => {
    const asked = new Set([...xml.matchAll(/resid="([^"]+)"/g)].map((match) => match[1]));
    const there = [...xml.matchAll(/<bt:\w+ id="([^"]+)"/g)].map((match) => match[1]);
    expect([...asked].sort()).toEqual([...there].sort());
    expect(Math.max(...there.map((id) => id.length))).toBeLessThanOrEqual(32);
  });

  test("short strings are short, long ones not too long (Microsoft: 125 and 250 characters)", () => {
    const valuesIn = (section: string) => {
      const part = new RegExp(`<bt:${section}>([\\s\\S]*?)</bt:${section}>`).exec(xml)?.[1] ?? "";
      return [...part.matchAll(/DefaultValue="([^"]*)"/g)].map((match) => match[1]);
    };
    for (const text of valuesIn("ShortStrings")) expect(text.length).toBeLessThanOrEqual(125);
    for (const text of valuesIn("LongStrings")) expect(text.length).toBeLessThanOrEqual(250);
  });

  test("addresses are https, and nothing else is loaded", () => {
    for (const [, address] of xml.matchAll(/DefaultValue="(\w+:\/\/[^"]*)"/g)) {
      expect(address).toMatch(
        /^https:\/\/localhost:3000\/(taskpane\.html|help\/support\.html|functions\.js(on)?|icons\/icon-\d+\.png)$/,
      );
    }
  });

  test("shared runtime, the needed API sets, the namespace, no TaskpaneId", () => {
    expect(xml).toContain('<Runtime resid="Taskpane.Url" lifetime="long"/>');
    expect(xml).toContain('<Set Name="SharedRuntime" MinVersion="1.1"/>');
    expect(xml).toContain('<Set Name="CustomFunctionsRuntime" MinVersion="1.3"/>');
    expect(xml).toContain(`id="Functions.Namespace" DefaultValue="${NAMESPACE}"`);
    expect(xml).not.toContain("TaskpaneId");
  });

  test("each icon is there in the size that its name says", () => {
    for (const size of [16, 32, 64, 80, 128]) {
      const png = readFileSync(`taskpane/icons/icon-${size}.png`);
      // Width and height stand at bytes 16 and 20 of a PNG (ISO/IEC 15948).
      expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([size, size]);
    }
  });
});
