package pipe

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Kind is a fitting by the name it is sold under.
type Kind int

// The fittings the engine knows.
const (
	Elbow90    Kind = iota + 1 // a hard right angle
	Bend90                     // a slow right angle, radius one and a half bores or more
	Elbow45                    // half a right angle
	TeeThrough                 // straight through a tee
	TeeBranch                  // round the corner of a tee
	BallValve                  // full bore, open
	GateValve                  // open
	CheckValve                 // swing check, wide open, which it is only above some 2.4 m/s
	HoseTail                   // hose pushed on a tail; its loss follows from the two bores
	Entry                      // flush, sharp-edged, out of still water
	Exit                       // into still water or the open air: the velocity head is lost either way
)

// String is the fitting in the words of the trade.
func (k Kind) String() string {
	if row, ok := threeK[k]; ok {
		return row.name
	}
	return "hose tail"
}

// threeKRow is one row of Darby's table.
type threeKRow struct {
	name       string
	k1, ki, kd float64
}

// threeK is the part of Darby's table that garden circuits use, and two ends whose loss depends on neither bore nor
// Reynolds number.
//
// Source: Darby 2001, table 7-3, as carried by the python fluids library (fluids.fittings.Darby); entry, Flow of Fluids
// TP-410; exit, Borda–Carnot.
var threeK = map[Kind]threeKRow{
	Elbow90:    {"elbow 90°", 800, 0.14, 4.0},
	Bend90:     {"slow bend 90°", 800, 0.071, 4.2},
	Elbow45:    {"elbow 45°", 500, 0.071, 4.2},
	TeeThrough: {"tee, straight through", 200, 0.091, 4.0},
	TeeBranch:  {"tee, round the corner", 500, 0.274, 4.0},
	BallValve:  {"ball valve", 300, 0.017, 3.5},
	GateValve:  {"gate valve", 300, 0.037, 3.9},
	CheckValve: {"swing check valve", 1500, 0.46, 4.0},
	Entry:      {"entry", 0, 0.5, 0},
	Exit:       {"exit", 0, 1.0, 0},
}

// ThreeKInput is the input of ThreeK.
type ThreeKInput struct {
	K1       float64     `sym:"K₁"`
	Ki       float64     `sym:"Kᵢ"`
	Kd       float64     `sym:"K_d"`
	Reynolds float64     `sym:"Re"`
	Bore     unit.Length `sym:"D"`
}

// ThreeK gives the loss coefficient of a fitting by Darby's three constants.
//
//	K = K₁/Re + Kᵢ (1 + K_d/(D/25.4 mm)^0.3)
//
// The table asks for the nominal size in inches; the true bore is used, which hose sizes are named after.
// Holds for turbulent and laminar flow. K belongs to the velocity in the bore D.
// Source: Darby 2001, eq. 7-38 and table 7-3.
var ThreeK = working.Formula[ThreeKInput, float64]{
	ID: "pipe.three-k", Name: "loss coefficient of a fitting", Symbol: "K",
	Equation: "K = K₁/Re + Kᵢ (1 + K_d/(D/25.4 mm)^0.3)", Source: source.Darby2001,
	Eval: func(in ThreeKInput) float64 { return in.K1/in.Reynolds + threeKTurbulent(in.Ki, in.Kd, in.Bore) },
}

func threeKTurbulent(ki, kd float64, bore unit.Length) float64 {
	return ki * (1 + kd/math.Pow(bore.Inches(), 0.3))
}

// TailInput is the input of Tail.
type TailInput struct {
	Bore     unit.Length `sym:"D"`
	TailBore unit.Length `sym:"d"`
}

// Tail gives the loss coefficient of a hose tail: a sudden narrowing and a sudden widening one after the other.
//
//	K = [0.5 (1 − β²) + (1 − β²)²]/β⁴,  β = d/D
//
// K belongs to the velocity in the hose of bore D. Friction in the short throat is left out.
// Holds for 0 < β ≤ 1 and turbulent flow.
// Source: narrowing, Flow of Fluids TP-410; widening, Borda–Carnot.
var Tail = working.Formula[TailInput, float64]{
	ID: "pipe.hose-tail", Name: "loss coefficient of a hose tail", Symbol: "K",
	Equation: "K = [0.5 (1 − β²) + (1 − β²)²]/β⁴, β = d/D", Source: source.FlowOfFluids,
	Eval: func(in TailInput) float64 {
		beta := in.TailBore.Metres() / in.Bore.Metres()
		narrowing := 1 - beta*beta
		return (0.5*narrowing + narrowing*narrowing) / (beta * beta * beta * beta)
	},
}
