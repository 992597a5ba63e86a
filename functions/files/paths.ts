/** Paths of the parts of a file. */

/** Where the relationships of a part stand. */
export function relationsOf(path: string): string {
  const cut = path.lastIndexOf("/") + 1;
  return `${path.slice(0, cut)}_rels/${path.slice(cut)}.rels`;
}

/**
 * The way from a part to another: ../comments1.xml. Some programs read no target that begins at the
 * root.
 */
export function targetFrom(from: string, to: string): string {
  const here = from.split("/").slice(0, -1);
  const there = to.split("/");
  let same = 0;
  while (same < here.length && here[same] === there[same]) same++;
  return [...here.slice(same).map(() => ".."), ...there.slice(same)].join("/");
}
