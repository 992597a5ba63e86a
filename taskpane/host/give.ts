/** Gives a file to the person, as a browser's download. */
const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

export function giveWorkbook(bytes: Uint8Array, name: string): void {
  // No file is made in memory shared with a worker, which a Blob does not take.
  give(new Blob([bytes as BlobPart], { type: XLSX }), name);
}

export function giveText(text: string, type: string, name: string): void {
  give(new Blob([text], { type }), name);
}

function give(blob: Blob, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  // A moment later, when the download has begun.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
