/** The units that a pack may be sold in, for drop-downs: the closed list of src/units.ts. */
import { VOLUME_UNITS, WEIGHT_UNITS } from "../../src/units";

export const PACK_UNITS: string[] = [...WEIGHT_UNITS, ...VOLUME_UNITS];
