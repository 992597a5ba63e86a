/** The Hand over part: a copy for a partner without the add-in, and the repair of what another machine saved. */
import { NAMESPACE } from "../../functions/catalog/entry.ts";
import { element } from "./elements.ts";
import type { Replaced } from "../../functions/files/hand-over.ts";
import type { Tell } from "./tell.ts";
import type { Workbook } from "../host/workbook.ts";

/** What makes the copy, and what mends, is loaded when it is first wanted. */
const handingOver = () => import("../../functions/files/hand-over.ts");
const repairing = () => import("../host/repair.ts");

export function handOverPart(workbook: Workbook, tell: Tell): HTMLElement {
  const made = element("div", {});
  const mended = element("ul", { class: "outcome" });
  const give = async (bytes: Uint8Array, name: string) => {
    const { handOver } = await handingOver();
    const { bytes: copy, replaced } = handOver(bytes);
    made.replaceChildren(...(replaced.length > 0 ? [listShown(replaced)] : []));
    return `${await workbook.give(copy, name)} ${countShown(replaced)}`;
  };

  const copy = element("button", { type: "button", class: "main" }, "Make a copy of this workbook");
  copy.addEventListener("click", () =>
    tell(async () => give(await workbook.file(), "handed over.xlsx")),
  );

  const file = element("input", { type: "file", accept: ".xlsx", id: "saved", hidden: true });
  const choose = element("button", { type: "button" }, "Make a copy of a saved .xlsx");
  choose.addEventListener("click", () => file.click());
  file.addEventListener("change", () => {
    const chosen = file.files?.[0];
    file.value = "";
    if (!chosen) return;
    const name = `${chosen.name.replace(/\.xlsx$/i, "")} handed over.xlsx`;
    void tell(async () => give(new Uint8Array(await chosen.arrayBuffer()), name));
  });

  const mend = element("button", { type: "button" }, "Repair");
  mend.addEventListener("click", () =>
    tell(async () => {
      const { repair } = await repairing();
      const repaired = await repair(workbook);
      mended.replaceChildren(
        ...repaired.map(({ place, formula, outcome }) =>
          element(
            "li",
            {},
            element("strong", {}, place),
            ` ${outcome} `,
            element("code", {}, formula),
          ),
        ),
      );
      const swept = (await workbook.sweep?.()) ?? 0;
      const also = swept > 0 ? ` ${sweptShown(swept)}` : "";
      const right = repaired.filter(({ isMended }) => isMended).length;
      if (repaired.length === 0)
        return `Nothing to repair: every function of ours is known here.${also}`;
      const rest = repaired.length - right;
      return `${right} ${cells(right)} entered again${rest > 0 ? `, ${rest} not mended` : ""}: see the list.${also}`;
    }),
  );

  return element(
    "section",
    {},
    element("h2", {}, "A copy for a partner without the add-in"),
    element(
      "p",
      {},
      "Where a function is plain arithmetic, the copy holds an ordinary formula that stays live. Where it is more, " +
        "the copy holds the value, in a broken violet border, with the formula in a note. A sheet in the copy lists " +
        "every replaced cell. Your own workbook is not changed.",
    ),
    copy,
    file,
    choose,
    made,
    element("h2", { class: "next" }, "Formulas that show #NAME?"),
    element(
      "p",
      {},
      `A workbook that was saved on a machine without the add-in can keep our functions under names that no sheet ` +
        `knows, and shows #NAME?. Repair enters each of those ${NAMESPACE} formulas again and lists them.`,
    ),
    mend,
    mended,
  );
}

function listShown(replaced: Replaced[]): HTMLElement {
  const summary = element("summary", {}, `What was replaced: ${replaced.length}`);
  return element(
    "details",
    {},
    summary,
    element("ul", { class: "outcome" }, ...replaced.map(replacedShown)),
  );
}

function replacedShown({ sheet, cell, was, became, what }: Replaced): HTMLElement {
  const now = {
    formula: "live formula",
    value: `fixed value: ${what}`,
    "left as it was": `left: ${what}`,
  }[became];
  return element(
    "li",
    {},
    element("strong", {}, `${cell} of ${sheet}`),
    ` ${now} `,
    element("code", {}, was),
  );
}

function countShown(replaced: Replaced[]): string {
  const live = replaced.filter(({ became }) => became === "formula").length;
  const fixed = replaced.filter(({ became }) => became === "value").length;
  if (live + fixed === 0) return "It had no functions of ours to replace.";
  return `${live} ${cells(live)} stay live, ${fixed} became fixed values.`;
}

function sweptShown(count: number): string {
  const names = count === 1 ? "A hidden name" : `${count} hidden names`;
  return `${names} that an older version had left ${count === 1 ? "is" : "are"} taken away.`;
}

function cells(count: number): string {
  return count === 1 ? "cell" : "cells";
}
