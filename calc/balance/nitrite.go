package balance

import (
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// NitriteInput is what bacteria that live on nitrite find in the water.
type NitriteInput struct {
	Growth     unit.PerTime       `sym:"μ_B"`
	Half       unit.Concentration `sym:"K_B"`
	Decay      unit.PerTime       `sym:"b_B"`
	HalfOxygen unit.Concentration `sym:"KO_B"`
	Oxygen     unit.Concentration `sym:"O"`
	PH         unit.Ratio         `sym:"f_pH"`
}

// Nitrite gives the nitrite, as nitrogen, a ripe pond settles at: where growth on it just makes up for decay, whatever the
// load.
//
//	I = K_B b_B/(μ − b_B),  μ = μ_B f_pH O/(KO_B + O)
//
// Holds while μ > b_B, in a filter with room to spare: no rate of media for nitrite was found. See package ripening for
// the constants.
// Source: derived, from the two-step Monod model set to rest.
var Nitrite = working.Formula[NitriteInput, unit.Concentration]{
	ID: "balance.nitrite", Name: "nitrite at rest", Symbol: "I",
	Equation: "I = K_B b_B/(μ_B f_pH O/(KO_B + O) − b_B)", Source: source.MonodNitrification,
	Outside: func(in NitriteInput) string {
		if nitriteGrowth(in) <= float64(in.Decay) {
			return "bacteria that die faster than they grow: nitrite does not settle"
		}
		return ""
	},
	Eval: func(in NitriteInput) unit.Concentration {
		return unit.Concentration(float64(in.Half) * float64(in.Decay) / (nitriteGrowth(in) - float64(in.Decay)))
	},
}

func nitriteGrowth(in NitriteInput) float64 {
	return float64(in.Growth) * in.PH.Float() * float64(in.Oxygen) / float64(in.HalfOxygen+in.Oxygen)
}

// nitriteAtRest gives the nitrite, or nil where the growth constants are not stated or the bacteria cannot live.
func nitriteAtRest(t *working.Trail, in Input) *unit.Concentration {
	if in.Load == 0 && (in.TapTAN == 0 || in.WeeklyChange == 0) {
		return new(unit.Concentration) // nothing comes in that could turn to nitrite
	}
	water := ripening.KineticsInput{Temperature: in.Temperature}
	if ripening.NitrifierKinetics.Outside(water) != "" {
		return nil
	}
	k := ripening.NitrifierKinetics.Run(t, water)
	at := NitriteInput{
		Growth: k.GrowthB, Half: k.HalfB, Decay: k.DecayB, HalfOxygen: k.OxygenB, Oxygen: in.Oxygen,
		PH: ripening.PHFactor.Run(t, ripening.PHFactorInput{PH: in.PH}),
	}
	if Nitrite.Outside(at) != "" {
		return nil
	}
	settled := Nitrite.Run(t, at)
	return &settled
}
