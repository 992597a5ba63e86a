/** Gives a file to the person, as a browser's download. */
const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

export function download(bytes: Uint8Array, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([bytes as BlobPart], { type: XLSX }));
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}
