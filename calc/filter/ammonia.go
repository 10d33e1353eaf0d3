package filter

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// UnionisedShareInput is fresh water.
type UnionisedShareInput struct {
	Temperature unit.Temperature `sym:"t"`
	PH          float64          `sym:"pH"`
}

// UnionisedShare gives the share of total ammonia that is NH₃, the form that harms fish.
//
//	f = 1/(1 + 10^(pKa − pH)),  pKa = 0.09018 + 2729.92/(t + 273.15)    t in °C
//
// Fresh water, 0 to 30 °C, pH 6 to 10.
// Source: Emerson et al. 1975. The paper used 273.2, which gives 0.4 % more.
var UnionisedShare = working.Formula[UnionisedShareInput, unit.Ratio]{
	ID: "filter.unionised-share", Name: "share of ammonia that is un-ionised", Symbol: "f",
	Equation: "f = 1/(1 + 10^(0.09018 + 2729.92/(t + 273.15) - pH))", Source: source.UnionisedAmmonia,
	Outside: func(in UnionisedShareInput) string {
		if in.Temperature < 0 || in.Temperature > 30 || in.PH < 6 || in.PH > 10 {
			return "water outside 0 to 30 °C and pH 6 to 10"
		}
		return ""
	},
	Eval: func(in UnionisedShareInput) unit.Ratio {
		pKa := 0.09018 + 2729.92/in.Temperature.Kelvin()
		return unit.Ratio(1 / (1 + math.Pow(10, pKa-in.PH)))
	},
}

// UnionisedLimit is the un-ionised ammonia that fish are kept under for good, as nitrogen: 0.025 mg/L of NH₃ is 0.0206
// of nitrogen, rounded down. Harm is expected above 0.05 mg/L.
const UnionisedLimit = unit.Concentration(0.02e-3)

// TotalLimit caps the total ammonia however little of it is un-ionised: above 1 mg/L it is called toxic in small
// recirculating systems. Source: FAO Technical Paper 589, chapter 7 (as reproduced).
const TotalLimit = unit.Concentration(1e-3)

// TANLimitInput is what total ammonia is held to.
type TANLimitInput struct {
	Unionised unit.Concentration `sym:"C_u"`
	Total     unit.Concentration `sym:"C_t"`
	Share     unit.Ratio         `sym:"f"`
}

// TANLimit gives the total ammonia, as nitrogen, at which the un-ionised part reaches its limit.
//
//	S = min(C_u/f, C_t)
//
// f is UnionisedShare; usually C_u = UnionisedLimit and C_t = TotalLimit.
// Source: limits of EIFAC (from memory) and FAO Technical Paper 589.
var TANLimit = working.Formula[TANLimitInput, unit.Concentration]{
	ID: "filter.tan-limit", Name: "total ammonia allowed", Symbol: "S",
	Equation: "S = min(C_u/f, C_t)", Source: source.AmmoniaLimit,
	Eval: func(in TANLimitInput) unit.Concentration {
		return min(unit.Concentration(float64(in.Unionised)/in.Share.Float()), in.Total)
	},
}
