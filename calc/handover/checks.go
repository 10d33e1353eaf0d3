// Package handover holds what is measured when a pond first runs, and what its owner is told.
package handover

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry { return []working.Entry{&BucketTime} }

// BucketInput is a vessel held under a flow.
type BucketInput struct {
	Vessel unit.Volume `sym:"V"`
	Flow   unit.Flow   `sym:"Q"`
}

// BucketTime gives the time (s) in which a flow fills a vessel:
//
//	t = V / Q
//
// For a flow above 0. Source: by definition.
var BucketTime = working.Formula[BucketInput, unit.Time]{
	ID: "handover.bucket-time", Name: "time to fill a vessel", Symbol: "t", Equation: "t = V / Q", Source: source.Definition,
	Eval: func(in BucketInput) unit.Time { return unit.Time(float64(in.Vessel) / float64(in.Flow)) },
}

// A Check is something measured or looked at when the pond first runs.
type Check struct {
	ID, Name, How       string
	Expected, Low, High *finding.Value // nil where it is only looked at
	Source              source.Source
}

// Running is what a pond is expected to do. What is 0 is not known, or is not there.
type Running struct {
	Flow, FlowLow, FlowHigh unit.Flow
	Power                   unit.Power
	StartDrop               unit.Length
	StopRise                unit.Length
	Freeboard               unit.Length
	Fall                    bool
	Mains                   bool
}

// Vessels that flows are measured with: one that takes at least five seconds to fill is timed well enough, and larger than a dustbin
// there is none at hand.
const (
	bucket    = unit.Volume(12e-3)
	tub       = unit.Volume(70e-3)
	leastTime = unit.Time(5)
)

// powerOff is how far a plug-in meter and a label may differ: common practice.
const powerOff = unit.Ratio(0.15)

// levelOff is how true a rim is: common practice.
const levelOff = unit.Length(3e-3)

// Checks lists them in the order they are made.
func Checks(t *working.Trail, r Running) []Check {
	t.About("commissioning")
	made := []Check{
		{
			ID: "rim_level", Name: "Rim level all round", How: "Water standing still, a rule at eight places.",
			Expected: mm(0), Low: mm(-levelOff), High: mm(levelOff), Source: source.Practice,
		},
		{ID: "edge_dry", Name: "Edge dry after a day", How: "Look behind every stone, and under the soil at the lining's end.", Source: source.Practice},
	}
	if r.Flow > 0 {
		made = append(made, flowChecks(t, r)...)
	}
	if r.Power > 0 {
		made = append(made, Check{
			ID: "power", Name: "Power of the pump", How: "A plug-in meter, after five minutes.",
			Expected: finding.Of(r.Power.Watts(), "W"), Low: finding.Of(r.Power.Watts()*(1-powerOff.Float()), "W"), High: finding.Of(r.Power.Watts()*(1+powerOff.Float()), "W"),
			Source: source.Practice,
		})
	}
	made = append(made, levelChecks(r)...)
	if r.Mains {
		made = append(made, Check{
			ID: "residual_current", Name: "Residual-current device", How: "Tested by the electrician, with a certificate; by its button every three months from then on.", Source: source.WiringRules,
		})
	}
	return append(made, Check{
		ID: "two_days", Name: "Level for a day with the pump, and one without", How: "A mark at the edge, in like weather, nothing topped up.", Source: source.Practice,
	})
}

func flowChecks(t *working.Trail, r Running) []Check {
	vessel := bucket
	how := "A bucket of 12 L under the outlet, three times, the mean of them."
	if BucketTime.Eval(BucketInput{Vessel: bucket, Flow: r.Flow}) < leastTime {
		vessel, how = tub, "A tub or bin of 70 L with scrap lining as a chute, three times, the mean of them: a bucket is full too soon to time."
	}
	seconds := func(q unit.Flow) *finding.Value {
		if q <= 0 {
			return nil
		}
		return finding.Of(BucketTime.Run(t, BucketInput{Vessel: vessel, Flow: q}).Seconds(), "s")
	}
	return []Check{
		{
			ID: "flow", Name: "Flow, everything clean", How: how, Expected: lph(r.Flow), Low: lph(r.FlowLow), High: lph(r.FlowHigh), Source: source.Balance,
		},
		{
			ID: "flow_by_vessel", Name: "Seconds to fill it", How: how, Expected: seconds(r.Flow), Low: seconds(r.FlowHigh), High: seconds(r.FlowLow), Source: source.Definition,
		},
	}
}

func levelChecks(r Running) []Check {
	var made []Check
	const half, twice = 0.5, 2 // what is in transit is known no better: common practice
	if r.StartDrop > 0 {
		made = append(made, Check{
			ID: "start_drop", Name: "Level when the fall starts", How: "A rule at the edge before and ten minutes after; top up to the mark while it runs.",
			Expected: mm(r.StartDrop), Low: mm(half * r.StartDrop), High: mm(twice * r.StartDrop), Source: source.Balance,
		})
	}
	if r.StopRise > 0 {
		c := Check{
			ID: "stop_rise", Name: "Level when the power goes", How: "Pull the plug and watch for ten minutes: nothing may run over, and no hose may go on drawing.",
			Expected: mm(r.StopRise), Low: mm(half * r.StopRise), High: mm(twice * r.StopRise), Source: source.Balance,
		}
		if r.Freeboard > 0 {
			c.High = mm(min(twice*r.StopRise, r.Freeboard))
		}
		made = append(made, c)
	}
	return made
}

func mm(l unit.Length) *finding.Value { return finding.Of(l.Millimetres(), "mm") }

func lph(q unit.Flow) *finding.Value {
	if q <= 0 {
		return nil
	}
	return finding.Of(q.LitresPerHour(), "L/h")
}
