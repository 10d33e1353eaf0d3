package algae

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// RemovalInput is a lamp at work on a pond.
type RemovalInput struct {
	Share  unit.Ratio `sym:"eta"` // of the algae killed or made fit to settle in one pass
	Passes unit.Ratio `sym:"n"`   // of the whole pond a day
}

// Removal gives the rate at which a lamp takes algae from a well-mixed pond.
//
//	k = eta n        1/day
//
// What is killed must be caught or settle, or it feeds the next crop. Source: mass balance.
var Removal = working.Formula[RemovalInput, unit.PerTime]{
	ID: "algae.removal", Name: "rate at which the lamp takes algae", Equation: "k = eta n", Symbol: "k",
	Source: source.AlgaeBalance, Eval: removal,
}

func removal(in RemovalInput) unit.PerTime { return unit.PerDay(in.Share.Float() * in.Passes.Float()) }

// ClearingInput is a balance and an aim.
type ClearingInput struct {
	Growth  unit.PerTime `sym:"mu"`
	Loss    unit.PerTime `sym:"d"` // respiration and settling
	Removal unit.PerTime `sym:"k"`
	Ratio   unit.Ratio   `sym:"X0/X"` // algae now over algae wanted, above 1
}

// ClearingTime is whether a pond clears and how long it takes.
type ClearingTime struct {
	Clears bool      `sym:"clears"`
	Time   unit.Time `sym:"t"` // 0 where it does not
}

// Clearing gives the time a well-mixed pond takes to clear at steady rates.
//
//	t = ln(X0/X) / (k + d - mu)   where k + d > mu; otherwise it does not clear        s, 1/s
//
// Source: solution of dX/dt = (mu - d - k) X.
var Clearing = working.Formula[ClearingInput, ClearingTime]{
	ID: "algae.clearing", Name: "time to clear", Equation: "t = ln(X0/X) / (k + d - mu)",
	Source: source.AlgaeBalance, Eval: clearing,
}

func clearing(in ClearingInput) ClearingTime {
	fall := float64(in.Removal + in.Loss - in.Growth)
	t := math.Log(in.Ratio.Float()) / fall
	if !(fall > 0) || math.IsInf(t, 0) {
		return ClearingTime{}
	}
	return ClearingTime{Clears: true, Time: unit.Seconds(t)}
}

// LeastFlowInput is a pond to hold from greening.
type LeastFlowInput struct {
	Growth unit.PerTime `sym:"mu"`
	Loss   unit.PerTime `sym:"d"`
	Share  unit.Ratio   `sym:"eta"`
	Volume unit.Volume  `sym:"V"`
}

// LeastFlow gives the flow through the lamp, day and night, that just holds a pond at a fixed share taken in one pass.
//
//	Q = (mu - d) V / eta, at least 0        m³/s, 1/s, m³
//
// With a real lamp the share falls as the flow rises. Source: mass balance.
var LeastFlow = working.Formula[LeastFlowInput, unit.Flow]{
	ID: "algae.least-flow", Name: "flow that just holds the pond", Equation: "Q = (mu - d) V / eta", Symbol: "Q",
	Source: source.AlgaeBalance, Eval: leastFlow,
}

func leastFlow(in LeastFlowInput) unit.Flow {
	net := float64(in.Growth - in.Loss)
	return unit.CubicMetresPerSecond(max(0, net) * in.Volume.CubicMetres() / in.Share.Float())
}

// LimitedInput is algae that shade and starve one another.
type LimitedInput struct {
	Growth   unit.PerTime       `sym:"mu"`
	Loss     unit.PerTime       `sym:"d"`
	Removal  unit.PerTime       `sym:"k"`
	Start    unit.Concentration `sym:"X0"` // as chlorophyll
	Capacity unit.Concentration `sym:"K"`  // where growth stops by itself
	Time     unit.Time          `sym:"t"`
}

// Limited gives the algae after a time when growth slows down as they grow dense.
//
//	dX/dt = mu X (1 - X/K) - d X - k X
//	r = mu - d - k;  X = X0 e^(r t) / (1 + X0 mu/K · (e^(r t) - 1)/r),  and 1 + X0 mu t/K below the line for r = 0
//
// Concentrations in kg/m³, rates in 1/s. Source: solution of the logistic equation with loss.
var Limited = working.Formula[LimitedInput, unit.Concentration]{
	ID: "algae.limited", Name: "algae after a time, growth limited by themselves",
	Equation: "X = X0 e^(r t) / (1 + X0 mu/K · (e^(r t) - 1)/r), r = mu - d - k", Symbol: "X",
	Source: source.AlgaeBalance, Eval: limited,
}

func limited(in LimitedInput) unit.Concentration {
	mu, t := float64(in.Growth), in.Time.Seconds()
	r := mu - float64(in.Loss) - float64(in.Removal)
	X0, K := in.Start.KilogramsPerCubicMetre(), in.Capacity.KilogramsPerCubicMetre()
	switch { // each way round where its exponential stays below 1
	case r > 0:
		return unit.KilogramsPerCubicMetre(X0 / (math.Exp(-r*t) - X0*mu/K*math.Expm1(-r*t)/r))
	case r < 0:
		return unit.KilogramsPerCubicMetre(X0 * math.Exp(r*t) / (1 + X0*mu/K*math.Expm1(r*t)/r))
	default:
		return unit.KilogramsPerCubicMetre(X0 / (1 + X0*mu/K*t))
	}
}

// Formulas are the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{&Envelope, &EnvelopeBissinger, &Removal, &Clearing, &LeastFlow, &Limited}
}
