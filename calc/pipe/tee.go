package pipe

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// TeeInput is a tee or wye whose straight leg has one bore.
type TeeInput struct {
	Run    unit.Length `sym:"D"`
	Branch unit.Length `sym:"d"`
	Angle  unit.Angle  `sym:"θ"` // of the branch to the straight leg; 90° is a tee
	Share  unit.Ratio  `sym:"q"` // flow of the branch by that of the leg which carries both
}

func outsideTee(in TeeInput) string {
	if a := in.Angle.Degrees(); a < 30-1e-9 || a > 90+1e-9 {
		return "branch outside 30 to 90°"
	}
	if in.Share < 0 || in.Share > 1 {
		return "share of the branch outside 0 to 1"
	}
	return ""
}

// ConvergingBranch gives the loss coefficient from the branch of a tee to the leg that carries both flows.
//
//	K = C [1 + (q/β²)² − 2 (1 − q)² − F q²/β²],  β = d/D
//	C = 1 (β² ≤ 0.35), 0.9 (1 − q) (q ≤ 0.4), 0.55 (else); F by angle: 1.74 at 30°, 1.41 at 45°, 1 at 60°, 0 at 90°
//
// K belongs to the velocity of both flows together in the bore D. It is below 0 where the straight flow draws the branch
// along.
// Source: Flow of Fluids TP-410, 2009, with its errata.
var ConvergingBranch = working.Formula[TeeInput, float64]{
	ID: "pipe.converging-branch", Name: "loss coefficient of a branch that joins", Symbol: "K",
	Equation: "K = C [1 + (q/β²)² − 2 (1 − q)² − F q²/β²], β = d/D; C = 1 (β² ≤ 0.35), 0.9 (1 − q) (q ≤ 0.4), 0.55 (else); " +
		"F = 1.74, 1.41, 1, 0 at θ = 30, 45, 60, 90°",
	Source: source.FlowOfFluids, Outside: outsideTee, Eval: convergingBranch,
}

func convergingBranch(in TeeInput) float64 {
	q, b2 := in.Share.Float(), square(float64(in.Branch/in.Run))
	c := 0.55
	switch {
	case b2 <= 0.35:
		c = 1
	case q <= 0.4:
		c = 0.9 * (1 - q)
	}
	return c * (1 + square(q/b2) - 2*square(1-q) - joiningAngle(in.Angle)/b2*q*q)
}

// joiningAngle is F, by the angle of the branch; straight lines between the rows.
func joiningAngle(a unit.Angle) float64 {
	table := [...][2]float64{{30, 1.74}, {45, 1.41}, {60, 1}, {90, 0}}
	x := max(a.Degrees(), table[0][0])
	for i := 1; i < len(table); i++ {
		low, high := table[i-1], table[i]
		if x <= high[0] {
			return low[1] + (high[1]-low[1])*(x-low[0])/(high[0]-low[0])
		}
	}
	return 0
}

// ConvergingRun gives the loss coefficient of the flow that goes straight on through a tee where a branch joins it.
//
//	θ ≥ 75°:  K = 1.55 q − q²
//	θ < 75°:  K = 1 − (1 − q)² − F q²/β²,  β = d/D; F by angle: 1.74 at 30°, 1.41 at 45°, 1 from 60°
//
// K belongs to the velocity of both flows together in the bore D, and may be below 0.
// Source: Flow of Fluids TP-410, 2009, with its errata.
var ConvergingRun = working.Formula[TeeInput, float64]{
	ID: "pipe.converging-run", Name: "loss coefficient straight on where a branch joins", Symbol: "K",
	Equation: "θ ≥ 75°: K = 1.55 q − q²; else K = 1 − (1 − q)² − F q²/β², β = d/D, F = 1.74, 1.41, 1 at θ = 30, 45, 60°",
	Source:   source.FlowOfFluids, Outside: outsideTee,
	Eval: func(in TeeInput) float64 {
		q, b2 := in.Share.Float(), square(float64(in.Branch/in.Run))
		if steep(in.Angle, 75) {
			return 1.55*q - q*q
		}
		F := joiningAngle(min(in.Angle, unit.Degrees(60)))
		return 1 - square(1-q) - F/b2*q*q
	},
}

// DivergingBranch gives the loss coefficient from the leg that carries both flows to the branch of a tee.
//
//	K = G [1 + H (q/β²)² − J (q/β²) cos θ],  β = d/D
//	H = 1, J = 2 (θ < 60° or β ≤ 2/3); H = 0.3, J = 0 (else)
//	θ < 75°, β² ≤ 0.35:  G = 1.1 − 0.7 q (q ≤ 0.4), 0.85 (else);  θ < 75°, β² > 0.35:  G = 1 − 0.6 q (q ≤ 0.6), 0.6 (else)
//	θ ≥ 75°:             G = 1 (β² ≤ 2/3), 1 + 0.3 q² (else)
//
// K belongs to the velocity of both flows together in the bore D. The source's steps in G are steps in K.
// Source: Flow of Fluids TP-410, 2009, with its errata.
var DivergingBranch = working.Formula[TeeInput, float64]{
	ID: "pipe.diverging-branch", Name: "loss coefficient of a branch that leaves", Symbol: "K",
	Equation: "K = G [1 + H (q/β²)² − J (q/β²) cos θ], β = d/D; H = 1, J = 2 (θ < 60° or β ≤ 2/3), else H = 0.3, J = 0; " +
		"G by θ, β and q as in the source",
	Source: source.FlowOfFluids, Outside: outsideTee,
	Eval: func(in TeeInput) float64 {
		q, beta := in.Share.Float(), float64(in.Branch/in.Run)
		b2 := beta * beta
		H, J := 0.3, 0.0
		if !steep(in.Angle, 60) || beta <= 2.0/3 {
			H, J = 1, 2
		}
		return leavingFactor(in.Angle, q, b2) * (1 + H*square(q/b2) - J*q/b2*math.Cos(in.Angle.Radians()))
	},
}

// leavingFactor is G.
func leavingFactor(a unit.Angle, q, b2 float64) float64 {
	switch {
	case steep(a, 75) && b2 <= 2.0/3:
		return 1
	case steep(a, 75):
		return 1 + 0.3*q*q
	case b2 <= 0.35 && q <= 0.4:
		return 1.1 - 0.7*q
	case b2 <= 0.35:
		return 0.85
	case q <= 0.6:
		return 1 - 0.6*q
	default:
		return 0.6
	}
}

// DivergingRun gives the loss coefficient of the flow that goes straight on through a tee where a branch leaves it.
//
//	K = M q²;  M = 0.4 (β² ≤ 0.4), 2 (2 q − 1) (q ≤ 0.5), 0.3 (2 q − 1) (else),  β = d/D
//
// K belongs to the velocity of both flows together in the bore D, and may be below 0.
// Source: Flow of Fluids TP-410, 2009, with its errata.
var DivergingRun = working.Formula[TeeInput, float64]{
	ID: "pipe.diverging-run", Name: "loss coefficient straight on where a branch leaves", Symbol: "K",
	Equation: "K = M q²; M = 0.4 (β² ≤ 0.4), 2 (2 q − 1) (q ≤ 0.5), 0.3 (2 q − 1) (else), β = d/D",
	Source:   source.FlowOfFluids, Outside: outsideTee,
	Eval: func(in TeeInput) float64 {
		q, b2 := in.Share.Float(), square(float64(in.Branch/in.Run))
		switch {
		case b2 <= 0.4:
			return 0.4 * q * q
		case q <= 0.5:
			return 2 * (2*q - 1) * q * q
		default:
			return 0.3 * (2*q - 1) * q * q
		}
	},
}

// steep says whether an angle is that many degrees or more; the last bits of a conversion do not decide it.
func steep(a unit.Angle, degrees float64) bool { return a.Degrees() >= degrees-1e-9 }
