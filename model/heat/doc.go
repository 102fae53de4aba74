// Package heat works out what an aquarium loses to its room and what its
// electrical parts must do about it: heat loss and evaporation, heater size,
// a power cut, blending of hot and cold water, running cost, filter flow, and
// the sum of all plugs.
//
// Nouns:
//   - an Enclosure is the box that holds the water, with its cover and what it
//     stands on;
//   - a loss is the steady heat flow from water to room, in its three parts:
//     walls, bottom and surface (Loss);
//   - the need is the loss at the set point and the lowest room temperature with
//     a reserve; a heater's size is the next common size above it (HeaterSize);
//   - a power cut is the cooling curve with the heater off (PowerCut);
//   - the operating point is where a pump's curve meets the system's
//     (FilterOperatingPoint).
//
// Every result carries the *working.Trail that leads to it, and findings where
// there is something to tell. Inputs outside what a formula accepts are refused
// with a *working.Refusal, never answered; NaN and infinities neither enter nor
// leave.
//
// Units: the base units of package quantity. Conductivities are W/(m·K), heat
// capacities J/K.
//
// Validity: water 0 to 45 °C, room -10 to 45 °C, relative humidity 0 to 1, boxes
// of 0.1 to 3 m with walls of 1 to 40 mm, still indoor air at sea level. The loss
// model is good to about ±25 %: draughts, the corner of a room and gaps in the lid
// are not known.
//
// Sources: Churchill and Chu 1975 (vertical walls); McAdams (horizontal
// surfaces); Shah 2014, ASHRAE Transactions 120(2) (evaporation); Hyland and
// Wexler in the ASHRAE Handbook Fundamentals (moist air); Swamee and Jain 1976
// (pipe friction); Timmons and Ebeling (ammonia from feed). The heat of the lid, of
// the bottom and of the water film inside are judgement, marked where they stand.
package heat
