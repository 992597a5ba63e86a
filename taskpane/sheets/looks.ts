/**
 * How each look is painted, the same on both hosts. A cell with a fill also sets its ink, so that it
 * reads on a dark sheet too; a cell without one leaves both to the host.
 */
import { keysOf } from "../../src/lists.ts";
import type { Look, Mark } from "./block.ts";

export interface Paint {
  fill?: string;
  ink?: string;
  bold?: boolean;
  italic?: boolean;
  size?: number;
  wrap?: boolean;
  align?: "left" | "center" | "right";
}

export const PAINT: Record<Look, Paint> = {
  title: { bold: true, size: 16 },
  note: {},
  caution: { bold: true },
  section: { bold: true, size: 12 },
  // At the left, as the filter of a list has its button at the right.
  heading: { fill: "#DCE6E4", ink: "#1E3336", bold: true, wrap: true, align: "left" },
  label: {},
  input: { fill: "#FFF4D6", ink: "#3A2E0B" },
  drawn: { fill: "#DDEBF3", ink: "#12313F" },
  result: { fill: "#EEF2F3", ink: "#1E3336" },
  answer: { fill: "#EEF2F3", ink: "#1E3336", align: "center" },
};

export const LOOKS = keysOf(PAINT);

/** Marks: the words say it; dark, middle and light say it again, also where hues are not seen. */
export const MARK_PAINT: Record<Mark, Required<Pick<Paint, "fill" | "ink" | "bold" | "italic">>> = {
  over: { fill: "#7A1C1C", ink: "#FFFFFF", bold: true, italic: false },
  doubt: { fill: "#E3A233", ink: "#2B1D00", bold: true, italic: false },
  within: { fill: "#E6F4E9", ink: "#16391F", bold: false, italic: false },
  lacking: { fill: "#C6CFD2", ink: "#1E3336", bold: true, italic: true },
};

/** The series of a chart, in turn: apart in lightness too, for those who do not see the hue. */
export const CHART_COLORS = ["#2F7A78", "#B5651D"];

/**
 * How the number at a bar is written, from its cells' format: not at all where it is zero. Programs draw the blank
 * text of a formula as a zero, too, and what is not known must not read as nothing.
 */
export function labelFormat(format = "General"): string {
  const [above = "", below = `-${above}`] = format.split(";");
  return `${above};${below};`;
}
