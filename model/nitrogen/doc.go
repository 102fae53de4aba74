// Package nitrogen computes how a filter matures: ammonia turned into nitrite
// and nitrite into nitrate by two groups of bacteria that grow while they feed.
//
// Nouns:
//   - State is the tank at one moment: total ammonia, nitrite and nitrate (mg/L
//     as nitrogen, always), the two groups of bacteria (mg/L of oxygen demand,
//     counted on the tank's water though they sit on surfaces) and alkalinity;
//   - Params are the figures of the model, each with its published range;
//   - an Event is something done at a time: a dose, a feeding level, fish in or
//     out, a water change, another temperature, CO2, pH or oxygen;
//   - a Way is a way to mature a filter: fishless, with fish, or seeded.
//
// The model: with r_A = μ_A·g(pH)·Alk/(K_Alk + Alk)·A/(K_A + A)·O/(K_OA + O)·X and
// r_N = μ_N·g(pH)·B/(K_N + B)·O/(K_ON + O)·K_I/(K_I + NH3)·Z,
//
//	dA/dt = P − r_A/Y_A            dX/dt = r_A − b_A·X
//	dB/dt = r_A/Y_A − r_N/Y_N      dZ/dt = r_N − b_N·Z
//	dC/dt = r_N/Y_N                dAlk/dt = s·P/14.007 − 2·(r_A/Y_A)/14.007
//
// pH follows from alkalinity and dissolved CO2; NH3 from A, pH and temperature.
// Nitrogen is conserved: Result.Balance shows it.
//
// A calculation refuses what it does not accept with a *working.Refusal that names
// the field; on a refusal the other results mean nothing.
//
// Validity: 15 to 30 °C and pH 6 to 9, fresh water. Days until a filter is ready
// depend most on bacteria that nobody counted, so Maturing gives a range of a
// factor two to three. Tests tell when a filter is ready; days never do.
//
// Sources: Hiatt & Grady 2008, Sin et al. 2008, Blackburne et al. 2007, Vannecke
// & Volcke 2015, Ekama & Wentzel in Henze et al. 2008; see sources.go.
package nitrogen
