/** The workbook's own file out of Excel, and a copy into it. */
import { giveWorkbook } from "./give.ts";
import { reasonOf } from "./run.ts";

/** The most bytes that Excel hands out at a time. */
const LARGEST_SLICE = 4_194_304;

type Asked<T> = (answered: (result: Office.AsyncResult<T>) => void) => void;

function asked<T>(ask: Asked<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    ask(({ status, value, error }) => {
      if (status === Office.AsyncResultStatus.Failed) reject(new Error(error.message));
      else resolve(value);
    });
  });
}

/** The whole document, slice by slice. Excel keeps few files open at a time, so it is closed whatever happens. */
async function wholeFile(): Promise<Uint8Array> {
  const file = await asked<Office.File>((answered) =>
    Office.context.document.getFileAsync(
      Office.FileType.Compressed,
      { sliceSize: LARGEST_SLICE },
      answered,
    ),
  );
  try {
    const bytes = new Uint8Array(file.size);
    let filled = 0;
    for (let i = 0; i < file.sliceCount; i++) {
      const slice = await asked<Office.Slice>((answered) => file.getSliceAsync(i, answered));
      // Office's types leave open what a slice holds; of a compressed file it is bytes.
      const data = slice.data as number[];
      bytes.set(data, filled);
      filled += data.length;
    }
    if (filled === 0) throw new Error("it is empty");
    if (filled < file.size) throw new Error(`${filled} of ${file.size} bytes came`);
    return bytes;
  } finally {
    await asked((answered) => file.closeAsync(answered)).catch(() => undefined);
  }
}

export async function file(): Promise<Uint8Array> {
  try {
    return await wholeFile();
  } catch (error) {
    // On the web, Microsoft's table of file types names only PDF for Excel; others report that it works.
    throw new Error(
      `Excel did not hand out this workbook's file: ${reasonOf(error)}. Save a copy of it on your ` +
        "computer (File, Create a copy, Download a copy), then choose that file with the button below.",
    );
  }
}

/** Opens a copy as a new workbook; where Excel does not, hands it over as a download. */
export async function give(bytes: Uint8Array, name: string): Promise<string> {
  try {
    await Excel.createWorkbook(base64(bytes));
    return "The copy is open as a new workbook: save it under a name of its own.";
  } catch (error) {
    giveWorkbook(bytes, name);
    return (
      `Excel did not open the copy (${reasonOf(error)}), so it was handed over as a download, "${name}": look ` +
      "among your downloads. Where there is none, open this workbook in Excel on the web or on another " +
      "computer, and make the copy there."
    );
  }
}

/** Bytes as base64, a piece at a time, as a call takes only so many arguments. */
function base64(bytes: Uint8Array): string {
  let text = "";
  for (let i = 0; i < bytes.length; i += 8192) {
    text += String.fromCharCode(...bytes.subarray(i, i + 8192));
  }
  return btoa(text);
}
