/** The functions bundle of the Excel add-in. */
import { register } from "./register.ts";

register(CustomFunctions);
