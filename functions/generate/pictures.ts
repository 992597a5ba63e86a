/** Pictures for the pages of functions that a picture says more of than words; npm run pictures takes them. */
interface Picture {
  /** In docs/pictures. */
  file: string;
  says: string;
}

const fade = {
  file: "spray-trial-log-chart",
  says: "Scores of one scent over 48 hours, and the curve fitted to them",
};
const sold = {
  file: "bottle-cost-chart",
  says: "What a bottle of each size costs, and the price asked for it",
};

const PICTURES: Partial<Record<string, Picture>> = {
  OILFOR: { file: "working", says: "The pane explains the cell: 5 % of 60 g is 3 g" },
  SETRIGHT: { file: "functions", says: "The pane finds it by: poured too much oil" },
  FLOZCOST: { file: "my-own-sheet", says: "Over the columns of a list, sixty lines at once" },
  BOTTLECOST: sold,
  ASKPRICE: sold,
  KEEPRATE: { file: "price-list-chart", says: "Where a retail price goes, and what is kept" },
  FADEHALF: fade,
  LASTSFOR: fade,
};

/** The lines of a page that show it, if there is one. */
export function pictureOf(id: string): string[] {
  const picture = PICTURES[id];
  return picture ? [`![${picture.says}](../pictures/${picture.file}.png)`, ""] : [];
}
