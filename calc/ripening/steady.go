package ripening

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// SteadyStateInput is a ripe pond under a constant load, with the growth of both kinds as the water lets it be.
type SteadyStateInput struct {
	GrowthA    unit.PerTime       `sym:"μ_A"` // with oxygen and pH in it
	HalfA      unit.Concentration `sym:"K_A"`
	DecayA     unit.PerTime       `sym:"b_A"`
	GrowthB    unit.PerTime       `sym:"μ_B"`
	HalfB      unit.Concentration `sym:"K_B"`
	DecayB     unit.PerTime       `sym:"b_B"`
	Load       unit.MassRate      `sym:"P"`
	Pond       unit.Volume        `sym:"V"`
	Exchange   unit.PerTime       `sym:"D"`
	TapTAN     unit.Concentration `sym:"S_in"`
	TapNitrate unit.Concentration `sym:"N_in"`
}

// Steady is what the water comes to, all as nitrogen.
type Steady struct {
	TAN     unit.Concentration `sym:"S"`
	Nitrite unit.Concentration `sym:"I"`
	Nitrate unit.Concentration `sym:"N"`
}

// SteadyState gives what the ripening model comes to when the load stays and the media have room to spare. Each kind of
// bacteria grows until it holds its food at the level where growth just makes up for decay, whatever the load.
//
//	S = K_A b_A/(μ_A − b_A),  I = K_B b_B/(μ_B − b_B),  N = N_in + P/(V D) + S_in − S − I
//
// Holds where μ > b for both and the load keeps both alive; N needs a water change, D > 0.
// Source: derived, from the model set to rest.
var SteadyState = working.Formula[SteadyStateInput, Steady]{
	ID: "ripening.steady-state", Name: "ammonia, nitrite and nitrate of a ripe pond",
	Equation: "S = K_A b_A/(μ_A − b_A); I = K_B b_B/(μ_B − b_B); N = N_in + P/(V D) + S_in − S − I",
	Source:   source.MonodNitrification,
	Outside: func(in SteadyStateInput) string {
		if in.GrowthA <= in.DecayA || in.GrowthB <= in.DecayB || in.Exchange <= 0 {
			return "bacteria that die faster than they grow, or no change of water"
		}
		return ""
	},
	Eval: func(in SteadyStateInput) Steady {
		rest := func(mu, b unit.PerTime, half unit.Concentration) unit.Concentration {
			return unit.Concentration(float64(half) * float64(b) / float64(mu-b))
		}
		s := Steady{TAN: rest(in.GrowthA, in.DecayA, in.HalfA), Nitrite: rest(in.GrowthB, in.DecayB, in.HalfB)}
		s.Nitrate = in.TapNitrate + in.TapTAN - s.TAN - s.Nitrite +
			unit.Concentration(float64(in.Load)/(in.Pond.CubicMetres()*float64(in.Exchange)))
		return s
	},
}

// Rest gives the state the pond comes to under its last load, and whether there is one: it needs a water change, growth
// that outpaces decay, food for both kinds, and no limit on room.
func Rest(t *working.Trail, in Input) (Steady, bool, error) {
	if err := in.Check(); err != nil {
		return Steady{}, false, err
	}
	if in.Kinetics == (Kinetics{}) {
		in.Kinetics = NitrifierKinetics.Run(t, KineticsInput{Temperature: in.Temperature})
	}
	k := in.Kinetics
	m := newModel(in, k, PHFactor.Run(t, PHFactorInput{PH: in.PH}))
	at := SteadyStateInput{
		GrowthA: unit.PerDay(m.growthA), HalfA: k.HalfA, DecayA: k.DecayA,
		GrowthB: unit.PerDay(m.growthB), HalfB: k.HalfB, DecayB: k.DecayB,
		Load: in.Load[len(in.Load)-1].TAN, Pond: in.Pond, Exchange: in.Exchange,
		TapTAN: in.TapTAN, TapNitrate: in.TapNitrate,
	}
	if SteadyState.Outside(at) != "" || in.Room > 0 {
		return Steady{}, false, nil
	}
	s := SteadyState.Run(t, at)
	turnedA := at.Load.GramsPerDay()/in.Pond.CubicMetres() + m.exchange*(m.tapTAN-s.TAN.MilligramsPerLitre())
	turnedB := turnedA - m.exchange*s.Nitrite.MilligramsPerLitre()
	return s, turnedA > 0 && turnedB > 0, nil
}
