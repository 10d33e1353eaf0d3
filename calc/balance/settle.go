package balance

import (
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Input is a pond with a ripe filter.
type Input struct {
	Pond          unit.Volume
	Filter        filter.Filter
	Load          unit.MassRate // total ammonia of the fish, as nitrogen
	Temperature   unit.Temperature
	PH            float64
	Oxygen        unit.Concentration
	Flow          unit.Flow          // through the filter
	WeeklyChange  unit.Ratio         // share of the water changed each week, flushes and all
	TapTAN        unit.Concentration // as nitrogen
	TapNitrate    unit.Concentration // as nitrogen
	Alkalinity    unit.Concentration // of the pond now, as CaCO₃
	TapAlkalinity unit.Concentration
}

// A Water is what the pond settles at.
type Water struct {
	Capacity        unit.MassRate       // of the filter at most, at the expected rate of the media
	Rests           bool                // whether ammonia settles at all; where not, TAN and Unionised are nothing
	TAN             unit.Concentration  // at the expected rate of the media, as nitrogen
	TANHigh         unit.Concentration  // at the low end of the published rates; nothing where it does not settle
	HighRests       bool                // whether it does
	Unionised       unit.Concentration  // of TAN, as nitrogen
	Nitrite         *unit.Concentration // as nitrogen; nil where it does not settle or is not known
	Nitrate         Weekly              // nothing without a change of water: it rises without end
	NitrateTrickled unit.Concentration  // were the same water to trickle in all week; nothing without
	AlkalinityUse   unit.MassRate       // as CaCO₃
	AlkalinityLasts unit.Time           // until LeastAlkalinity; negative is for good
	Held            []Held
	Findings        []finding.Finding
}

// What stands in for what was not said: a pond on rather hard tap water of which a tenth is changed each week.
const (
	UsualAlkalinity   = unit.Concentration(150e-3)
	UsualWeeklyChange = unit.Ratio(0.1)
)

// LeastAlkalinity keeps nitrification and pH steady. Source: Timmons & Ebeling; Boyd (from memory).
const LeastAlkalinity = unit.Concentration(50e-3)

// Settle says what the water comes to. Problems of the input are in err, an input.Errors.
func Settle(t *working.Trail, in Input) (Water, error) {
	if err := check(in); err != nil {
		return Water{}, err
	}
	low, expected, _, found, err := filter.Capacity(t, in.Filter, in.Temperature, stated)
	if err != nil {
		return Water{}, err
	}
	w := Water{Capacity: expected, Findings: found}
	change := unit.Flow(in.WeeklyChange.Float() * in.Pond.CubicMetres() / week.Seconds())
	w.TAN, w.Rests = rest(t, in, expected, change)
	w.TANHigh, w.HighRests = rest(t, in, low, change)
	share := filter.UnionisedShare.Run(t, filter.UnionisedShareInput{Temperature: in.Temperature, PH: in.PH})
	w.Unionised = unit.Concentration(share.Float() * float64(w.TAN))
	w.Nitrite = nitriteAtRest(t, in)
	if in.WeeklyChange > 0 {
		w.NitrateTrickled = Nitrate.Run(t, NitrateInput{Load: in.Load, Change: change, Tap: in.TapNitrate})
		w.Nitrate = NitrateWeekly.Run(t, WeeklyInput{Load: in.Load, Pond: in.Pond, Share: in.WeeklyChange, Every: week, Tap: in.TapNitrate})
	}
	w.AlkalinityUse = AlkalinityUse.Run(t, AlkalinityInput{TAN: in.Load})
	w.AlkalinityLasts = AlkalinityDays.Run(t, AlkalinityDaysInput{
		Now: in.Alkalinity, Least: LeastAlkalinity, Tap: in.TapAlkalinity, Use: w.AlkalinityUse, Pond: in.Pond, Change: change,
	})
	w.Held = held(in, w, share)
	w.Findings = append(w.Findings, verdicts(in, w, share)...)
	return w, nil
}

const (
	week   = unit.Time(7 * 86400)
	stated = unit.Concentration(1e-3) // ammonia the media rates are stated at
)

func rest(t *working.Trail, in Input, capacity unit.MassRate, change unit.Flow) (unit.Concentration, bool) {
	at := AmmoniaInput{Load: in.Load, Capacity: capacity, Stated: stated, Flow: in.Flow, Change: change, Tap: in.TapTAN}
	if Ammonia.Outside(at) != "" {
		return 0, false
	}
	return Ammonia.Run(t, at), true
}

func check(in Input) error {
	var problems input.Errors
	problems.Between("pond_volume_l", in.Pond.Litres(), 10, 1e9, "give the water in litres")
	problems.Between("tan_load_g_per_day", in.Load.GramsPerDay(), 0, 1e6, "give the ammonia of the fish, or 0")
	problems.Between("ph", in.PH, 5, 11, "measure the pH; 5 to 11 can be judged")
	problems.Between("oxygen_mg_per_l", in.Oxygen.MilligramsPerLitre(), 0, 30, "give the dissolved oxygen")
	problems.Between("flow_l_per_h", in.Flow.LitresPerHour(), 1, 1e8, "give the flow through the filter")
	problems.Between("weekly_change_percent", in.WeeklyChange.Percent(), 0, 100, "give the share of the water changed each week, or nothing")
	if in.WeeklyChange > 0 && in.WeeklyChange < 1e-3 {
		problems.Add("weekly_change_percent", "give at least 0.1, or nothing", "%g", in.WeeklyChange.Percent())
	}
	problems.Between("tap.tan_mg_per_l", in.TapTAN.MilligramsPerLitre(), 0, 100, "give 0 to 100 mg/L")
	problems.Between("tap.nitrate_n_mg_per_l", in.TapNitrate.MilligramsPerLitre(), 0, 1000, "give 0 to 1000 mg/L, as nitrogen")
	problems.Between("alkalinity_mg_per_l", in.Alkalinity.MilligramsPerLitre(), 0, 2000, "test the carbonate hardness and give it as CaCO3")
	problems.Between("tap.alkalinity_mg_per_l", in.TapAlkalinity.MilligramsPerLitre(), 0, 2000, "give it as CaCO3")
	_, _, _, _, err := filter.Capacity(nil, in.Filter, in.Temperature, 0)
	problems.AddUnder("", err)
	return problems.Err()
}
