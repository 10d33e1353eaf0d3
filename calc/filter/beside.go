package filter

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// BesideInput is a filter as its maker states it, in the pond it is to serve. What is not known is nothing.
type BesideInput struct {
	Flow      unit.Flow   // through the filter
	MaxFlow   unit.Flow   // that it is made for
	CleanHead unit.Head   // lost at Flow
	DueHead   unit.Head   // lost at Flow when due for cleaning
	Label     unit.Volume // "for ponds up to"
	Pond      unit.Volume
	Stocking  Stocking
	Headroom  unit.Ratio // of the assessment
}

// Beside is what stands beside the capacity of a filter: statements of its maker and habits of the trade, none of them
// calculated with.
type Beside struct {
	CleanHead, DueHead          unit.Head    // at this flow; nothing where no loss is stated
	Turnover                    unit.PerTime // of the pond; nothing where the pond is not known
	TurnoverLeast, TurnoverMost unit.PerTime // usual for the stocking
	Label                       []LabelRule
	Findings                    []finding.Finding
}

// TurnoverInput is water that runs through a filter, and the pond it comes from.
type TurnoverInput struct {
	Flow unit.Flow   `sym:"Q"`
	Pond unit.Volume `sym:"V"`
}

// Turnover gives how often in a time a pond passes through its filter. n = Q/V. Source: by definition.
var Turnover = working.Formula[TurnoverInput, unit.PerTime]{
	ID: "filter.turnover", Name: "passes of the pond through the filter", Symbol: "n",
	Equation: "n = Q/V", Source: source.Definition,
	Eval: func(in TurnoverInput) unit.PerTime { return unit.PerTime(float64(in.Flow) / float64(in.Pond)) },
}

// DueRatio is the head a filter loses when due for cleaning by the head it loses clean, where the maker states the clean
// one alone. It is an assumption.
const DueRatio = unit.Ratio(3)

// SetBeside works out what stands beside the capacity. Problems of the input are in err, an input.Errors.
func SetBeside(t *working.Trail, in BesideInput) (Beside, error) {
	if err := checkBeside(in); err != nil {
		return Beside{}, err
	}
	var b Beside
	if b.CleanHead, b.DueHead = in.CleanHead, in.DueHead; in.DueHead == 0 {
		b.DueHead = unit.Head(DueRatio.Float() * float64(in.CleanHead))
	}
	if in.Pond > 0 {
		b.Turnover = Turnover.Run(t, TurnoverInput{Flow: in.Flow, Pond: in.Pond})
		b.TurnoverLeast, b.TurnoverMost, _ = TurnoverPractice(in.Stocking)
		b.Label = LabelRules(in.Label, in.Pond)
	}
	b.Findings = besideVerdicts(in, b)
	return b, nil
}

func checkBeside(in BesideInput) error {
	var problems input.Errors
	problems.Between("flow_l_per_h", in.Flow.LitresPerHour(), 0, 1e8, "give the flow through the filter")
	problems.Between("max_flow_l_per_h", in.MaxFlow.LitresPerHour(), 0, 1e8, "give the greatest flow the filter is made for, or nothing")
	problems.Between("label_pond_l", in.Label.Litres(), 0, 1e9, "give the pond on the label, or nothing")
	problems.Between("pond_volume_l", in.Pond.Litres(), 0, 1e9, "give the water in litres, or nothing")
	problems.Between("clean_loss", in.CleanHead.Metres(), 0, 1e4, "give the head lost clean, or nothing")
	problems.Between("due_loss", in.DueHead.Metres(), 0, 1e4, "give the head lost when due for cleaning, or nothing")
	return problems.Err()
}
