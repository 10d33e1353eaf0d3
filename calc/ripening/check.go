package ripening

import (
	"fmt"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// Check says what is wrong with the input, as an input.Errors.
func (in Input) Check() error {
	var problems input.Errors
	problems.Between("pond_volume_l", in.Pond.Litres(), 10, 1e9, "give the water in litres")
	problems.Between("water_temperature_c", in.Temperature.Celsius(), 1, 35, "give the water temperature, 1 to 35 °C")
	for i, T := range in.Year {
		problems.Between(fmt.Sprintf("year[%d]", i), T.Celsius(), 0, 40, "give the water temperature of the day")
	}
	problems.Between("ph", in.PH, 5, 11, "measure the pH; 5 to 11 can be followed")
	problems.Between("oxygen_mg_per_l", in.Oxygen.MilligramsPerLitre(), 0, 30, "give the dissolved oxygen")
	problems.Between("exchange_per_day", in.Exchange.PerDay(), 0, 10, "give the share of the water changed each day, or nothing")
	problems.Between("days", in.Until.Days(), 1, 3660, "give the days to follow")
	problems.Between("room_mg_per_l", in.Room.MilligramsPerLitre(), 0, 1e6, "give the bacteria the media have room for, or nothing")
	for _, c := range []struct {
		field string
		c     unit.Concentration
	}{
		{"tap_tan_mg_per_l", in.TapTAN}, {"tap_nitrate_n_mg_per_l", in.TapNitrate}, {"tan_limit_mg_per_l", in.Limits.TAN}, {"nitrite_limit_mg_per_l", in.Limits.Nitrite},
		{"start.tan_mg_per_l", in.Start.TAN}, {"start.nitrite_n_mg_per_l", in.Start.Nitrite}, {"start.nitrate_n_mg_per_l", in.Start.Nitrate},
		{"start.ammonia_oxidisers_mg_per_l", in.Start.AmmoniaOxidisers}, {"start.nitrite_oxidisers_mg_per_l", in.Start.NitriteOxidisers},
	} {
		problems.Between(c.field, c.c.MilligramsPerLitre(), 0, 1000, "give 0 to 1000 mg/L")
	}
	if in.Kinetics != (Kinetics{}) {
		checkKinetics(&problems, in.Kinetics)
	}
	checkLoad(&problems, in.Load, mostLoad(in.Pond))
	return problems.Err()
}

func checkKinetics(problems *input.Errors, k Kinetics) {
	for _, c := range []struct {
		field string
		v     float64
	}{
		{"growth_a_per_day", k.GrowthA.PerDay()}, {"half_a_mg_per_l", k.HalfA.MilligramsPerLitre()}, {"yield_a", k.YieldA.Float()},
		{"decay_a_per_day", k.DecayA.PerDay()}, {"oxygen_a_mg_per_l", k.OxygenA.MilligramsPerLitre()},
		{"growth_b_per_day", k.GrowthB.PerDay()}, {"half_b_mg_per_l", k.HalfB.MilligramsPerLitre()}, {"yield_b", k.YieldB.Float()},
		{"decay_b_per_day", k.DecayB.PerDay()}, {"oxygen_b_mg_per_l", k.OxygenB.MilligramsPerLitre()},
	} {
		problems.Between("kinetics."+c.field, c.v, 1e-4, 100, "give every growth constant, or none")
	}
}

func checkLoad(problems *input.Errors, load []LoadStep, most unit.MassRate) {
	if len(load) == 0 || load[0].From != 0 {
		problems.Add("load", "let the first step begin on day 0, with no ammonia if need be", "no load at the start")
	}
	for i, step := range load {
		if !(step.TAN >= 0 && step.TAN <= most) {
			problems.Add(fmt.Sprintf("load[%d].tan_g_per_day", i), "give the ammonia nitrogen a day, or fewer fish",
				"%g g a day is far more than this water bears, at most %g", step.TAN.GramsPerDay(), most.GramsPerDay())
		}
		if i > 0 && !(step.From > load[i-1].From) {
			problems.Add(fmt.Sprintf("load[%d].from_day", i), "put the steps in order", "day %g does not come after day %g", step.From.Days(), load[i-1].From.Days())
		}
	}
}
