import { LINES_PART } from "./buying-plan/lines.ts";
import { ORDER_PARTS } from "./buying-plan/orders.ts";
import { RUN_PARTS, TAKES_PART } from "./buying-plan/runs.ts";
import type { Template } from "../sheets/template.ts";

/** From the runs to the packs to buy: a line for each pack, an order for each supplier. Demo data invented. */
export const template: Template = {
  title: "Buying plan",
  use: "From the runs to pour, or a need that is typed, to the packs to buy: one order for each supplier, its freight once.",
  words:
    "what to buy, shopping list, order, supplies, reorder, free shipping, packs, run short, run out, enough, not enough",
  step: 9,
  widths: [198, 136, 70, 70, 80, 80, 90, 88, 88, 86, 56, 64, 92, 82, 72, 82, 96, 254],
  parts: [
    { text: "title", rows: ["Buying plan"] },
    {
      text: "note",
      rows: [
        "One line a pack on offer. The need, what is on hand and the least to keep stand on one line of a material.",
        "To buy: the need with losses, less what is on hand, plus the least to keep. Each supplier is one order.",
        "Packs are chosen for the least cost, freight counted. Where a cheaper choice may exist, it says by how much.",
        "A blank price, density or freight is not known and said: type 0 where freight is free. Other blanks are none.",
      ],
    },
    ...RUN_PARTS.slice(0, 1),
    {
      text: "caution",
      rows: [
        "Flammable liquids have carrier rules of their own: ask the supplier what may be shipped, and how.",
      ],
    },
    ...RUN_PARTS.slice(1),
    ...ORDER_PARTS,
    LINES_PART,
    TAKES_PART,
  ],
  page: {
    landscape: true,
    heads: "lines",
    columns: 1,
    caution:
      "Flammable liquids have carrier rules of their own: ask the supplier what may be shipped.",
  },
};
