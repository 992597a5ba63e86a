/** What stands in the way of a release, in words, so that a person can mend it. */

import { refusalOf } from "../../taskpane/set-up/address";

/** The state of the repository, as a release sees it. */
export interface State {
  /** Where the Excel add-in will be served from, where that is known. */
  host: string | undefined;
  /** The version of package.json. */
  version: string;
  manifest: string;
  changelog: string;
  tags: readonly string[];
  /** Files that differ from the last commit. */
  changed: readonly string[];
}

/** All of them at once; none where a release may be made. */
export function obstacles(state: State): string[] {
  return [
    ofHost(state.host),
    ofTree(state.changed),
    ofTag(state),
    ofManifest(state),
    ofChangelog(state),
  ].filter((text) => text !== null);
}

/** Without an address, the zip's own page asks for one. */
function ofHost(host: string | undefined): string | null {
  return host === undefined ? null : refusalOf(host);
}

function ofTree(changed: readonly string[]): string | null {
  return changed.length === 0
    ? null
    : `commit these first, or put them away: ${changed.join(", ")}`;
}

function ofTag({ version, tags }: State): string | null {
  return tags.includes(`v${version}`)
    ? `v${version} is tagged already: raise the version in package.json and in manifest.xml`
    : null;
}

/** A manifest's version has four numbers. */
function ofManifest({ version, manifest }: State): string | null {
  const said = /<Version>(.*?)<\/Version>/.exec(manifest)?.[1] ?? "none";
  return said === `${version}.0`
    ? null
    : `manifest.xml says version ${said}, package.json ${version}: make it ${version}.0`;
}

function ofChangelog({ version, changelog }: State): string | null {
  const heading = /^## (.+)$/m.exec(changelog)?.[1] ?? "none";
  const date = dateOf(version, changelog);
  if (date === null || !heading.startsWith(`${version} - `))
    return `CHANGELOG.md begins with "${heading}": head what is new with "${version} - " and the date, as 2026-11-30`;
  return null;
}

/** The day of a version, as the changelog says it. */
export function dateOf(version: string, changelog: string): string | null {
  const headings = [...changelog.matchAll(/^## (\S+) - (\d{4}-\d\d-\d\d)$/gm)];
  const date = headings.find(([, each]) => each === version)?.[2];
  return date !== undefined && !Number.isNaN(Date.parse(date)) ? date : null;
}
