package water

import (
	"math"

	"example.org/driploop/model/quantity"
	"example.org/driploop/model/working"
)

// Blend returns the temperature of two waters (0 to 100 °C) poured together.
// Weighing by volume is up to 0.14 K high for tap-cold and kettle-hot water.
func Blend(v1 quantity.Volume, t1 quantity.Temperature, v2 quantity.Volume, t2 quantity.Temperature) (quantity.Temperature, *working.Trail, error) {
	err := first(acceptVolume("volume_1", "q.water.volume_1", v1, 0, largestTank), acceptVolume("volume_2", "q.water.volume_2", v2, 0, largestTank),
		acceptTemperature("temperature_1", t1, 0, 100), acceptTemperature("temperature_2", t2, 0, 100))
	if err == nil && v1+v2 < quantity.Litres(0.001) {
		err = working.Outside("volume_1", "q.water.volume_1", v1.Value(), quantity.Litres(0.001).Value(), largestTank.Value())
	}
	if err != nil {
		return 0, nil, err
	}
	share := quantity.Temperature(v2 / (v1 + v2))
	t := t1 + (t2-t1)*share
	return t, working.New("ask.water.blend").
		Given("V_1", "q.water.volume_1", v1.Value()).Given("T_1", "q.water.temperature_1", t1.Value()).
		Given("V_2", "q.water.volume_2", v2.Value()).Given("T_2", "q.water.temperature_2", t2.Value()).
		Step("T", "q.water.temperature", "T = (V_1·T_1 + V_2·T_2)/(V_1 + V_2)", t.Value(), working.Algebra).
		Assume("assume.water.same_heat"), nil
}

// HotShare returns the share of hot water (0 to 100 °C) that brings cold water
// to target, which lies between them. Two waters of the same temperature make
// no mix and are refused.
func HotShare(cold, hot, target quantity.Temperature) (quantity.Ratio, *working.Trail, error) {
	err := first(acceptTemperature("cold", cold, 0, 100), acceptTemperature("hot", hot, cold, 100),
		acceptTemperature("target", target, cold, hot))
	if err == nil && hot-cold < 0.01 {
		err = working.Outside("hot", "q.water.hot", hot.Value(), (cold + 0.01).Value(), quantity.Temperature(100).Value())
	}
	if err != nil {
		return 0, nil, err
	}
	x := quantity.Ratio((target - cold) / (hot - cold))
	return x, working.New("ask.water.hot_share").
		Given("T_c", "q.water.cold", cold.Value()).Given("T_h", "q.water.hot", hot.Value()).Given("T", "q.water.target_temperature", target.Value()).
		Step("x", "q.water.hot_share", "x = (T − T_c)/(T_h − T_c)", x.Value(), working.Algebra), nil
}

// TemperatureAfterChange returns the tank's temperature after a share f (0 to 1)
// is changed for water of another temperature, all 0 to 50 °C.
func TemperatureAfterChange(tank, incoming quantity.Temperature, f quantity.Ratio) (quantity.Temperature, *working.Trail, error) {
	err := first(acceptTemperature("tank_temp", tank, 0, 50), acceptTemperature("new_temp", incoming, 0, 50), acceptRatio("fraction", "q.water.fraction", f, 0, 1))
	if err != nil {
		return 0, nil, err
	}
	t := tank + quantity.Temperature(f)*(incoming-tank)
	return t, working.New("ask.water.temperature_after").
		Given("T_t", "q.water.tank_temperature", tank.Value()).Given("T_n", "q.water.new_temperature", incoming.Value()).Given("f", "q.water.fraction", f.Value()).
		Step("T", "q.water.temperature", "T = T_t + f·(T_n − T_t)", t.Value(), working.Algebra), nil
}

// LargestChange returns the largest share that may be changed when the tank is
// to move by no more than step (0.1 to 10 K).
func LargestChange(tank, incoming quantity.Temperature, step quantity.TemperatureDifference) (quantity.Ratio, *working.Trail, error) {
	err := first(acceptTemperature("tank_temp", tank, 0, 50), acceptTemperature("new_temp", incoming, 0, 50), acceptStep(step, 0.1))
	if err != nil {
		return 0, nil, err
	}
	f := quantity.Ratio(1)
	if gap := math.Abs(float64(incoming - tank)); gap > float64(step) {
		f = quantity.Ratio(float64(step) / gap)
	}
	return f, working.New("ask.water.largest_change").
		Given("T_t", "q.water.tank_temperature", tank.Value()).Given("T_n", "q.water.new_temperature", incoming.Value()).Given("ΔT", "q.water.step", step.Value()).
		Step("f", "q.water.fraction", "f = min(1; ΔT/|T_n − T_t|)", f.Value(), working.Algebra), nil
}

// ColdestNewWater returns how cold new water may be for a change of f (0.01 to
// 1) that cools the tank by no more than step (0 to 10 K). Below 0 °C it
// returns 0 °C.
func ColdestNewWater(tank quantity.Temperature, f quantity.Ratio, step quantity.TemperatureDifference) (quantity.Temperature, *working.Trail, error) {
	err := first(acceptTemperature("tank_temp", tank, 0, 50), acceptRatio("fraction", "q.water.fraction", f, 0.01, 1), acceptStep(step, 0))
	if err != nil {
		return 0, nil, err
	}
	t := max(0, tank-quantity.Temperature(float64(step)/float64(f)))
	return t, working.New("ask.water.coldest").
		Given("T_t", "q.water.tank_temperature", tank.Value()).Given("f", "q.water.fraction", f.Value()).Given("ΔT", "q.water.step", step.Value()).
		Step("T_n", "q.water.new_temperature", "T_n = max(0; T_t − ΔT/f)", t.Value(), working.Algebra), nil
}

func acceptStep(d, low quantity.TemperatureDifference) error {
	return working.InRange("step", "q.water.step", d.Value(), low.Value(), quantity.TemperatureDifference(10).Value())
}
