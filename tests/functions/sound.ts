/** What every answer to a sheet must be: a grid of finite numbers, words, and errors that say why. */
import { isFault } from "../../functions/bind/cell";

/** What is wrong with an answer, if anything is. */
export function unsound(answer: unknown): string | undefined {
  if (!Array.isArray(answer) || answer.length === 0) return "no grid came back";
  const width: unknown = Array.isArray(answer[0]) ? answer[0].length : undefined;
  for (const row of answer as unknown[]) {
    if (!Array.isArray(row) || row.length !== width || width === 0) return "its rows differ";
    for (const cell of row as unknown[]) {
      const wrong = unsoundCell(cell);
      if (wrong) return wrong;
    }
  }
  return undefined;
}

function unsoundCell(cell: unknown): string | undefined {
  if (isFault(cell)) {
    if (!cell.fault.startsWith("#")) return `an error is called ${cell.fault}`;
    if (cell.fault === "#VALUE!" && !/\S/.test(cell.text ?? "")) return "an error says nothing";
    // A name of ours or the engine's would mean nothing to a maker.
    const inner = /undefined|NaN|\[object|Infinity/.exec(cell.text ?? "");
    return inner ? `an error says ${inner[0]}: ${cell.text}` : undefined;
  }
  if (typeof cell === "number") return Number.isFinite(cell) ? undefined : `a number is ${cell}`;
  return typeof cell === "string" ? undefined : `a cell holds ${typeof cell}`;
}
