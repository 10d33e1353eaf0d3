package kit

import (
	"fmt"

	"example.com/pondwright/calc/fall"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Wanted is the flow looked for, and every need it comes from. Most is 0 where nothing limits the flow from above.
type Wanted struct {
	Least, Most unit.Flow
	Needs       []Need
}

// A Need is one reason for a flow. Most is 0 where it sets no upper limit.
type Need struct {
	Name        string
	Least, Most unit.Flow
	Sentence    string
	Source      source.Source
}

// Demands is what flow can be wanted for. The zero value wants none.
type Demands struct {
	Sheet     fall.Sheet   // of the fall; 0 where there is none or its flow is given
	Sill      unit.Length  // its width
	FallFlow  unit.Flow    // of the fall, where the owner gives it
	Turnover  unit.PerTime // of the pond through the filter; 0 takes what is usual for the stocking
	Filter    bool
	Stocking  filter.Stocking
	Volume    unit.Volume
	LeastFlow unit.Flow // that can carry the ammonia of the grown fish to the filter
}

// over is how much more may flow than is asked for by number, or than a filter needs that needs more than its fall was to
// carry. It has to be wider than the tolerance of a pump, or no pump could keep within.
const over = 1.5

// Flows adds up what flow is wanted, and why.
func Flows(t *working.Trail, d Demands) (Wanted, []finding.Finding) {
	var w Wanted
	if n, ok := d.fall(t); ok {
		w.add(n)
	}
	n, found := d.turnover(t)
	for _, n := range append(n, d.ammonia()...) {
		w.add(n)
	}
	if w.Most == 0 || w.Least <= w.Most {
		return w, found
	}
	asked := w.Most
	w.Most = unit.Flow(over * float64(w.Least))
	return w, append(found, finding.Finding{
		Code: "FALL_CARRIES_MORE", Severity: finding.Caution, Subject: "fall",
		Sentence: fmt.Sprintf("The pond needs %s L/h and the fall was to carry no more than %s L/h: the fall will be heavier than asked for.",
			finding.Whole(w.Least.LitresPerHour()), finding.Whole(asked.LitresPerHour())),
		Value: finding.Of(w.Least.LitresPerHour(), "L/h"), Limit: finding.Of(asked.LitresPerHour(), "L/h"),
		Change: "widen the sill, ask for a heavier sheet, or lead part of the flow past the fall", Source: source.Practice,
	})
}

func (w *Wanted) add(n Need) {
	w.Needs = append(w.Needs, n)
	w.Least = max(w.Least, n.Least)
	if n.Most > 0 && (w.Most == 0 || n.Most < w.Most) {
		w.Most = n.Most
	}
}

func (d Demands) fall(t *working.Trail) (Need, bool) {
	switch {
	case d.FallFlow > 0:
		return Need{
			Name: "fall", Least: d.FallFlow, Most: unit.Flow(over * float64(d.FallFlow)),
			Sentence: fmt.Sprintf("The fall is to carry %s L/h, up to half as much again.", finding.Whole(d.FallFlow.LitresPerHour())),
			Source:   source.Asked,
		}, true
	case d.Sheet != 0:
		least, most, src := d.Sheet.Practice()
		return Need{
			Name:  "fall",
			Least: fall.SillFlow.Run(t, fall.SillFlowInput{PerWidth: least, Width: d.Sill}),
			Most:  fall.SillFlow.Run(t, fall.SillFlowInput{PerWidth: most, Width: d.Sill}),
			Sentence: fmt.Sprintf("A %s takes %.0f to %.0f L/h over each centimetre of the %.0f cm sill.",
				d.Sheet, least.LitresPerHourPerCentimetre(), most.LitresPerHourPerCentimetre(), d.Sill.Centimetres()),
			Source: src,
		}, true
	}
	return Need{}, false
}

// turnover is how often the pond is to go round: as asked, or what is usual where there is a filter.
func (d Demands) turnover(t *working.Trail) ([]Need, []finding.Finding) {
	usual, _, src := filter.TurnoverPractice(d.Stocking)
	rate, why := usual, "as is usual for "+d.Stocking.String()
	if d.Turnover > 0 {
		rate, why, src = d.Turnover, "as the brief asks", source.Asked
	}
	if rate == 0 || !d.Filter && d.Turnover == 0 {
		return nil, nil
	}
	need := Need{
		Name:     "turnover",
		Least:    Turnover.Run(t, TurnoverInput{Volume: d.Volume, Rate: rate}),
		Sentence: fmt.Sprintf("The whole pond is to go round %.2g times an hour, %s.", rate.PerHour(), why),
		Source:   src,
	}
	if !d.Filter || rate >= usual {
		return []Need{need}, nil
	}
	return []Need{need}, []finding.Finding{{
		Code: "TURNOVER_BELOW_USUAL", Severity: finding.Caution, Subject: "filter",
		Sentence: fmt.Sprintf("The brief asks for %.2g turns of the pond an hour, less than the %.2g that are usual for %s.",
			rate.PerHour(), usual.PerHour(), d.Stocking),
		Value: finding.Of(rate.PerHour(), "1/h"), Limit: finding.Of(usual.PerHour(), "1/h"),
		Change: "let it go round more often, or test the water weekly", Source: source.Practice,
	}}
}

// ammonia is what carries the ammonia of the grown fish to the filter.
func (d Demands) ammonia() []Need {
	if !d.Filter || d.LeastFlow == 0 {
		return nil
	}
	return []Need{{
		Name: "ammonia", Least: d.LeastFlow,
		Sentence: "With less, not even a filter that took all ammonia in one pass could keep the water of the grown fish within their limit.",
		Source:   source.Balance,
	}}
}

// TurnoverInput is the input of Turnover.
type TurnoverInput struct {
	Volume unit.Volume  `sym:"V"`
	Rate   unit.PerTime `sym:"n"`
}

// Turnover gives the flow that passes a pond so many times in a time.
//
//	Q = n V    n in 1/s, V in m³, Q in m³/s
//
// Source: definition.
var Turnover = working.Formula[TurnoverInput, unit.Flow]{
	ID: "kit.turnover", Name: "flow for a turnover", Symbol: "Q", Equation: "Q = n V", Source: source.Definition,
	Eval: func(in TurnoverInput) unit.Flow { return unit.Flow(float64(in.Rate) * in.Volume.CubicMetres()) },
}
