import { amount, choice, positive } from "../errors.ts";
import { toGrams, weightUnit } from "../units.ts";

export type RoomUnit = "m3" | "ft3";

/** Cubic metres in one; the foot is 0.3048 m exactly. */
const CUBIC_METRES: Record<RoomUnit, number> = { m3: 1, ft3: 0.3048 ** 3 };

/**
 * Dose of a spray in the air of a room, and its fall as the air is changed.
 *
 * @remarks Dose = weight / room x exp(-air changes x hours). Air is taken as mixed at once and
 * followed by clean air, and nothing as caught by cloth, walls or filters: an upper bound for the
 * room as a whole, not for the air beside the sprayer, which holds many times more until it has
 * mixed. Where air mixes poorly it clears up to ten times as slowly: to be careful, type a tenth of
 * the air changes. It counts all that was sprayed: for one substance multiply by its share. Whether
 * a dose is harmless it does not say: the safety data sheet and a licensed person do.
 * @customfunction AIRDOSE
 * @topic limits
 * @need How much of my spray is in the air of a room, and how fast does it clear?
 * @words safe to breathe, room, ventilation, air out, pets, children, too strong, inhale
 * @param weight (weight) Weight of what is sprayed in all, zero or more; SPRAYSIN finds the weight
 * of a spray.
 * @param unit (unit) Unit of the weight.
 * @param room (number) Volume of the room, length x width x height, above zero.
 * @param roomunit (choice) "m3" or "ft3": cubic metres or cubic feet.
 * @param airchanges (number) How often an hour the air of the room is changed; 0 in a sealed room.
 * @param hours (hours) Hours since spraying, zero or more.
 * @returns (dose) Two cells, g/m3: the dose at that time, and its mean from the start until then.
 * @throws value - room is blank or zero, or roomunit is neither of the two
 * @throws value - airchanges or hours is below zero
 * @needs [or blank] room > 0
 * @needs same(roomunit, "m3") or same(roomunit, "ft3")
 * @needs isunit(unit) and isweight(unit)
 * @needs weight >= 0
 * @needs airchanges >= 0
 * @needs hours >= 0
 * @working grams (g): {weight} in grams = weight * per(unit)
 * @working [roomunit is m3] size ("m3"): the room in cubic metres = room
 * @working [roomunit is ft3] size ("m3"): the room in cubic metres, a foot being 0.3048 m, = room *
 * 0.3048 ^ 3
 * @working start (dose): the dose right after spraying, {grams} in {size}, = grams / size
 * @working changes ("changes of air"): how often the air has changed by then, {airchanges} times an
 * hour for {hours}, = airchanges * hours
 * @working left (share): what is still there after so many changes of air (e to the power of minus
 * their number) = exp(-changes)
 * @working [changes < 0.00001] mean (share): what was there on average until then = 1 - changes / 2
 * @working [changes >= 0.00001] mean (share): what was there on average until then = (1 - left) /
 * changes
 * @working dose (at that time: dose; on average until then: dose): these two parts of {start} =
 * [start * left, start * mean]
 * @source Decay in a well-mixed room, as in the CDC's table of air changes (MMWR 43 RR-13, 1994,
 * table S3-1), which has the factor of ten, too.
 * @example AIRDOSE(0.7, "g", 20, "m3", 0.5, 1) // => {about 0.02123, about 0.02754}
 * @example AIRDOSE(0.7, "g", 20, "m3", 0, 8) // => {0.035, 0.035}
 */
export function airDose(
  weight: number,
  unit: string,
  room: number,
  roomunit: RoomUnit,
  airchanges: number,
  hours: number,
): number[][] {
  const volume = positive("room", room);
  const size = volume * CUBIC_METRES[choice("roomunit", roomunit, ["m3", "ft3"] as const)];
  const start = toGrams("weight", weight, weightUnit("unit", unit)) / size;
  const changes = amount("airchanges", airchanges) * amount("hours", hours);
  const mean = changes === 0 ? 1 : -Math.expm1(-changes) / changes;
  return [[start * Math.exp(-changes), start * mean]];
}
