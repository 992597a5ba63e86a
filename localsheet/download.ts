/** Gives a file to the person, as a browser's download. */
const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

export function download(bytes: Uint8Array, name: string): void {
  // No file is made in memory shared with a worker, which a Blob does not take.
  give(new Blob([bytes as BlobPart], { type: XLSX }), name);
}

export function downloadText(text: string, name: string): void {
  give(new Blob([text], { type: "application/json" }), name);
}

function give(blob: Blob, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}
