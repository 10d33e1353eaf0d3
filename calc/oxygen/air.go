package oxygen

import (
	"math"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Air is what an air pump blows through a diffuser.
type Air struct {
	Flow  unit.Flow   // of air, at 20 °C and one atmosphere
	Depth unit.Length // of the diffuser below the water
	Fine  bool        // fine bubbles, as from a membrane; otherwise coarse ones, as from an air stone
}

// AirInput is air that rises through water.
type AirInput struct {
	Flow        unit.Flow        `sym:"Q_air"`
	Depth       unit.Length      `sym:"d"`
	PerMetre    unit.Ratio       `sym:"e"` // of the oxygen blown in, taken up in clean oxygen-free water at 20 °C by each metre
	Alpha       unit.Ratio       `sym:"α"` // uptake of pond water by that of clean water
	Temperature unit.Temperature `sym:"T"`
}

// AirTransfer gives what bubbles bring, as the flow of water that they as good as saturate: they bring G (Cs − C) of oxygen.
//
//	G = α e d m Q_air 1.024^(T − 20)/C₂₀,  m = 0.2786 kg/m³ oxygen in air,  C₂₀ = 9.092 g/m³
//
// Diffusers 0.1 to 5 m below, 0 to 40 °C.
// Source: the form and 1.024 of ASCE Standard 2; e and α are bands from memory, see source.DiffusedAir.
var AirTransfer = working.Formula[AirInput, unit.Flow]{
	ID: "oxygen.air-transfer", Name: "water as good as saturated by bubbles", Symbol: "G",
	Equation: "G = α e d m Q_air 1.024^(T − 20)/C20, m = 0.2786 kg/m³, C20 = 9.092 g/m³", Source: source.DiffusedAir,
	Outside: func(in AirInput) string {
		if in.Depth < 0.1 || in.Depth > 5 || in.Temperature < 0 || in.Temperature > 40 {
			return "diffuser outside 0.1 to 5 m or water outside 0 to 40 °C"
		}
		return ""
	},
	Eval: func(in AirInput) unit.Flow {
		const m, C20 = 0.2786, 9.092e-3
		taken := in.Alpha.Float() * in.PerMetre.Float() * in.Depth.Metres()
		return unit.Flow(taken * m * float64(in.Flow) * math.Pow(1.024, in.Temperature.Celsius()-20) / C20)
	},
}

// Uptake by each metre and alpha, low and high.
var (
	fineBubbles   = [2]unit.Ratio{0.04, 0.07}
	coarseBubbles = [2]unit.Ratio{0.02, 0.03}
	alphas        = [2]unit.Ratio{0.6, 0.9}
)

// Bubbles gives what an air pump brings, low and high; nothing without one. Problems of the input are in err, an
// input.Errors.
func Bubbles(t *working.Trail, a Air, temperature unit.Temperature) (low, high unit.Flow, err error) {
	if a.Flow == 0 {
		return 0, 0, nil
	}
	var problems input.Errors
	problems.Between("air.flow_l_per_min", a.Flow.LitresPerMinute(), 0, 1e6, "give the air that comes out under water, or nothing")
	problems.Between("air.depth_m", a.Depth.Metres(), 0.1, 5, "give how deep the diffuser lies")
	if err := problems.Err(); err != nil {
		return 0, 0, err
	}
	e := coarseBubbles
	if a.Fine {
		e = fineBubbles
	}
	at := func(i int) unit.Flow {
		return AirTransfer.Run(t, AirInput{Flow: a.Flow, Depth: a.Depth, PerMetre: e[i], Alpha: alphas[i], Temperature: temperature})
	}
	return at(0), at(1), nil
}
