package filter

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// AssessInput is a filter, the fish it is to carry and the water it works in.
type AssessInput struct {
	Filter      Filter
	Load        unit.MassRate // total ammonia of the grown stock, as nitrogen
	Temperature unit.Temperature
	PH          float64
	Flow        unit.Flow          // through the filter; 0 where it is not known yet
	Margin      unit.Ratio         // capacity wanted above the load: 0.25 wants a quarter more
	TANLimit    unit.Concentration // total ammonia to hold, as nitrogen; 0 takes TANLimit at this water
}

// A Band is a quantity with its width.
type Band struct{ Low, Expected, High unit.MassRate }

// An Assessment is what the filter can do held against what it must.
type Assessment struct {
	Capacity       Band               // ammonia taken up at TANLimit, as nitrogen
	CapacityWanted unit.MassRate      // load and margin
	Headroom       unit.Ratio         // expected capacity over capacity wanted, less one; 0 without load
	TANLimit       unit.Concentration // as nitrogen
	LeastFlow      unit.Flow          // that can carry the load at TANLimit, were all ammonia removed in one pass
	UnionisedShare unit.Ratio
	// Of the rate of the media, in this water and at TANLimit.
	TemperatureFactor, AmmoniaFactor unit.Ratio
	Findings                         []finding.Finding
}

// LeastFlowInput is a load and the water that brings it.
type LeastFlowInput struct {
	Load  unit.MassRate      `sym:"P"`
	Limit unit.Concentration `sym:"S"`
}

// LeastFlow gives the flow that carries the load to the filter at that concentration, were all of it removed in one pass.
//
//	Q = P/S
//
// A lower bound: a filter that removes a third a pass needs three times as much.
// Source: derived, mass balance.
var LeastFlow = working.Formula[LeastFlowInput, unit.Flow]{
	ID: "filter.least-flow", Name: "least flow that carries the ammonia", Symbol: "Q",
	Equation: "Q = P/S", Source: source.Definition,
	Eval: func(in LeastFlowInput) unit.Flow {
		return unit.Flow(float64(in.Load) / float64(in.Limit))
	},
}

// Assess holds a ripe filter against its load. The margin is the caller's choice and stands in the answer.
func Assess(t *working.Trail, in AssessInput) (Assessment, error) {
	if err := checkAssess(in); err != nil {
		return Assessment{}, err
	}
	var a Assessment
	a.UnionisedShare = UnionisedShare.Run(t, UnionisedShareInput{Temperature: in.Temperature, PH: in.PH})
	a.TANLimit = in.TANLimit
	if a.TANLimit == 0 {
		a.TANLimit = TANLimit.Run(t, TANLimitInput{Unionised: UnionisedLimit, Total: TotalLimit, Share: a.UnionisedShare})
	}
	var err error
	a.Capacity.Low, a.Capacity.Expected, a.Capacity.High, a.Findings, err = Capacity(t, in.Filter, in.Temperature, a.TANLimit)
	if err != nil {
		return Assessment{}, err
	}
	a.TemperatureFactor, a.AmmoniaFactor = RateOf(in.Filter.Medium).factors(nil, in.Temperature, a.TANLimit)
	a.CapacityWanted = unit.MassRate(float64(in.Load) * (1 + in.Margin.Float()))
	if in.Load > 0 {
		a.Headroom = unit.Ratio(float64(a.Capacity.Expected)/float64(a.CapacityWanted) - 1)
		a.LeastFlow = LeastFlow.Run(t, LeastFlowInput{Load: in.Load, Limit: a.TANLimit})
	}
	a.Findings = append(a.Findings, verdicts(in, a)...)
	return a, nil
}

func checkAssess(in AssessInput) error {
	var problems input.Errors
	checkFilter(&problems, in.Filter)
	checkTemperature(&problems, in.Temperature)
	if load := in.Load.GramsPerDay(); !(load >= 0 && load <= 1e6) {
		problems.Add("tan_load_g_per_day", "give the ammonia of the grown stock, or 0 without fish", "%g g a day", load)
	}
	if !(in.PH >= 5 && in.PH <= 11) {
		problems.Add("ph", "measure the pH; 5 to 11 can be judged", "pH %g", in.PH)
	}
	if q := in.Flow.LitresPerHour(); !(q >= 0 && q <= 1e8) {
		problems.Add("flow_l_per_h", "give the flow through the filter, or nothing", "%g L/h", q)
	}
	if !(in.Margin >= 0 && in.Margin <= 10) {
		problems.Add("margin", "give the margin as a share of the load, 0.25 for a quarter more", "%g", in.Margin.Float())
	}
	checkTAN(&problems, in.TANLimit)
	if in.TANLimit > 0 && in.TANLimit < unit.MilligramsPerLitre(0.001) {
		problems.Add("tan_mg_per_l", "give a limit a test kit can see, or nothing", "no filter holds %g mg/L", in.TANLimit.MilligramsPerLitre())
	}
	return problems.Err()
}
