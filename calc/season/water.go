package season

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// SplashPerMetre is what a fall throws beside the pond, in litres a day for each metre it falls; the habit of the trade reckons
// with 1 to 10.
const SplashPerMetre = 5.0

// SplashInput is a fall.
type SplashInput struct {
	Drop unit.Length `sym:"H"` // of all its steps
}

// Splash gives the water a fall throws beside the pond.
//
//	Q = 5 H L a day    H in m
//
// 1 to 10 L a day for each metre is said; wind makes it more.
// Source: common practice, no source.
var Splash = working.Formula[SplashInput, unit.Flow]{
	ID: "season.splash", Name: "water splashed beside the pond", Symbol: "Q",
	Equation: "Q = 5 H L/day, H in m", Source: source.Practice,
	Eval: func(in SplashInput) unit.Flow { return unit.LitresPerHour(SplashPerMetre / 24 * in.Drop.Metres()) },
}

// IntervalInput is a pond and all that raises and lowers it.
type IntervalInput struct {
	Allowance   unit.Length   `sym:"a"` // fall of the level at which it is topped up
	Surface     unit.Area     `sym:"A"`
	WetStone    unit.Area     `sym:"A_w"`
	Evaporation unit.Velocity `sym:"E"`
	Rain        unit.Velocity `sym:"r"`
	Catchment   unit.Area     `sym:"A_c"`
	RunOff      unit.Ratio    `sym:"c"`
	Splash      unit.Flow     `sym:"Q_s"`
	Flush       unit.Flow     `sym:"Q_f"`
	Leak        unit.Flow     `sym:"Q_l"`
}

// TopUpInterval gives the time between top-ups; a negative answer is never, the level does not fall.
//
//	t = a A/(E (A + A_w) + Q_s + Q_f + Q_l − r (A + c A_c))
//
// The surface is taken not to shrink within the allowance.
// Source: derived, balance of mass.
var TopUpInterval = working.Formula[IntervalInput, unit.Time]{
	ID: "season.top-up-interval", Name: "time between top-ups", Symbol: "t",
	Equation: "t = a A/(E (A + A_w) + Q_s + Q_f + Q_l − r (A + c A_c))", Source: source.Balance,
	Eval: func(in IntervalInput) unit.Time {
		A := in.Surface.SquareMetres()
		lost := float64(in.Evaporation)*(A+in.WetStone.SquareMetres()) + float64(in.Splash+in.Flush+in.Leak) -
			float64(in.Rain)*(A+in.RunOff.Float()*in.Catchment.SquareMetres())
		if lost <= 0 {
			return -1
		}
		return unit.Seconds(in.Allowance.Metres() * A / lost)
	},
}
