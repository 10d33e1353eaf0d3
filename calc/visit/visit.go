// Package visit holds what is measured at a pond that runs against what it was designed for.
package visit

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry { return []working.Entry{&FlowIndex, &Unexplained, &Litres} }

// IndexInput is a flow now and as it should be.
type IndexInput struct {
	Now      unit.Flow `sym:"Q"`
	Expected unit.Flow `sym:"Q₀"`
}

// FlowIndex gives a flow as a share of what is expected:
//
//	i = Q / Q₀
//
// For an expected flow above 0. Source: by definition.
var FlowIndex = working.Formula[IndexInput, unit.Ratio]{
	ID: "visit.flow-index", Name: "flow index", Symbol: "i", Equation: "i = Q / Q₀", Source: source.Definition,
	Eval: func(in IndexInput) unit.Ratio { return unit.Ratio(in.Now / in.Expected) },
}

// UnexplainedInput is a day's fall of the level, in metres of depth.
type UnexplainedInput struct {
	Fall        unit.Length `sym:"Δh"`
	Rain        unit.Length `sym:"r"`
	Evaporation unit.Length `sym:"e"` // of open water
	All         unit.Area   `sym:"A"` // of all open water: pond, upper bays, stream
	Pond        unit.Area   `sym:"A₀"`
}

// Unexplained gives the fall of the level (m a day) that sun, wind and rain do not explain:
//
//	u = Δh + (r - e) A / A₀
//
// All open water gives off vapour and takes rain, and the pond shows it alone. Below 0 the weather explains more than fell.
// Source: balance of mass.
var Unexplained = working.Formula[UnexplainedInput, unit.Length]{
	ID: "visit.unexplained-fall", Name: "fall of the level that the weather does not explain", Symbol: "u",
	Equation: "u = Δh + (r - e) A / A₀", Source: source.Balance,
	Eval: func(in UnexplainedInput) unit.Length {
		return in.Fall + (in.Rain-in.Evaporation)*unit.Length(in.All/in.Pond)
	},
}

// LitresInput is a depth of water over a pond.
type LitresInput struct {
	Fall unit.Length `sym:"Δh"`
	Pond unit.Area   `sym:"A₀"`
}

// Litres gives the water (m³) in a fall of the level:
//
//	V = Δh A₀
//
// Source: by definition.
var Litres = working.Formula[LitresInput, unit.Volume]{
	ID: "visit.litres", Name: "water in a fall of the level", Symbol: "V", Equation: "V = Δh A₀", Source: source.Definition,
	Eval: func(in LitresInput) unit.Volume { return unit.Volume(float64(in.Fall) * float64(in.Pond)) },
}

// A Level is how the level fell in a day. What is nil was not measured.
type Level struct {
	Running, Stopped *unit.Length
	Evaporation      unit.Length
	EvaporationOff   unit.Ratio // how far that may be off
	Rain             unit.Length
	Unsure           unit.Length // of each reading
	Pond, All        unit.Area
}

// A Loss is what the fall of the level says.
type Loss struct {
	FallShare         *unit.Length // of the running fall, over the stopped one
	FallLitres        *unit.Volume
	FromEvaporation   unit.Length // of the pond's level
	Unexplained       unit.Length
	Unsure            unit.Length
	UnexplainedLitres unit.Volume
	Findings          []finding.Finding
}

// Explain parts the fall of the level into the fall's share, the weather's and the rest. The rest is that of the day without the pump,
// where there was one. At least one reading must be there.
func (l Level) Explain(t *working.Trail) Loss {
	t.About("level")
	still := l.Stopped
	if still == nil {
		still = l.Running
	}
	var loss Loss
	loss.FromEvaporation = l.Evaporation * unit.Length(l.All/l.Pond)
	loss.Unexplained = Unexplained.Run(t, UnexplainedInput{Fall: *still, Rain: l.Rain, Evaporation: l.Evaporation, All: l.All, Pond: l.Pond})
	loss.Unsure = unit.Length(math.Hypot(float64(l.Unsure), float64(loss.FromEvaporation)*l.EvaporationOff.Float()))
	loss.UnexplainedLitres = Litres.Run(t, LitresInput{Fall: loss.Unexplained, Pond: l.Pond})
	if l.Running != nil && l.Stopped != nil {
		share := *l.Running - *l.Stopped
		litres := Litres.Run(t, LitresInput{Fall: share, Pond: l.Pond})
		loss.FallShare, loss.FallLitres = &share, &litres
	}
	loss.Findings = l.findings(loss)
	return loss
}

func (l Level) findings(loss Loss) []finding.Finding {
	var found []finding.Finding
	splash := loss.FallShare != nil && *loss.FallShare > 2*l.Unsure
	if splash {
		found = append(found, finding.Finding{
			Code: "FALL_LOSES_WATER", Severity: finding.Caution, Subject: "fall",
			Sentence: fmt.Sprintf("While the fall runs the level falls by %.1f mm a day more than without it, %.0f L.", loss.FallShare.Millimetres(), loss.FallLitres.Litres()),
			Value:    finding.Of(loss.FallShare.Millimetres(), "mm"),
			Change:   "look along the fall for a low stone, moss that dams it, splash beyond the lining, and water behind a lip", Source: source.Balance,
		})
	}
	switch of := "The weather explains the fall of the level"; {
	case loss.Unexplained > 2*loss.Unsure && l.Stopped == nil:
		found = append(found, finding.Finding{
			Code: "LEVEL_FALLS_TOO_FAST", Severity: finding.Caution, Subject: "level",
			Sentence: fmt.Sprintf("%.1f ± %.1f mm a day, %.0f L, are not the sun's. With the pump running alone it cannot be said whether pond or fall loses it.", loss.Unexplained.Millimetres(), loss.Unsure.Millimetres(), loss.UnexplainedLitres.Litres()),
			Value:    finding.Of(loss.Unexplained.Millimetres(), "mm"), Change: "leave the pump off for a day in like weather and read again", Source: source.Balance,
		})
	case loss.Unexplained > 2*loss.Unsure:
		found = append(found, finding.Finding{
			Code: "POND_LOSES_WATER", Severity: finding.Caution, Subject: "level",
			Sentence: fmt.Sprintf("With the pump off the level falls by %.1f ± %.1f mm a day, %.0f L, more than the sun takes.", loss.Unexplained.Millimetres(), loss.Unsure.Millimetres(), loss.UnexplainedLitres.Litres()),
			Value:    finding.Of(loss.Unexplained.Millimetres(), "mm"),
			Change:   "look for a low edge and soil that wicks first; then let it fall: it stands still at the height of the hole", Source: source.Balance,
		})
	case !splash:
		found = append(found, finding.Finding{
			Code: "ONLY_THE_SUN", Severity: finding.Note, Subject: "level",
			Sentence: fmt.Sprintf("%s: %.1f mm a day of it are evaporation from all open water.", of, loss.FromEvaporation.Millimetres()),
			Value:    finding.Of(loss.FromEvaporation.Millimetres(), "mm"), Source: source.Balance,
		})
	}
	return found
}
