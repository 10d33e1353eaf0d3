// Package fall is about water that runs over a sill.
package fall

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// A Sheet is how a fall is to look.
type Sheet int

// From quiet to loud.
const (
	Thin  Sheet = iota + 1 // a thin, quiet sheet
	Full                   // the usual full sheet
	Heavy                  // heavy and loud
)

// String is the sheet in the words of the trade.
func (s Sheet) String() string {
	switch s {
	case Thin:
		return "thin sheet"
	case Full:
		return "full sheet"
	case Heavy:
		return "heavy sheet"
	default:
		return "unknown"
	}
}

// Practice is the flow over each centimetre of sill that builders take for such a sheet. Rules of the trade disagree by a
// factor of three, mostly over where the depth of water is read; these bands are the middle of them.
//
// Source: common practice, no source.
func (s Sheet) Practice() (least, most unit.FlowPerWidth, src source.Source) {
	band := map[Sheet][2]float64{Thin: {60, 120}, Full: {120, 200}, Heavy: {200, 350}}[s]
	return unit.LitresPerHourPerCentimetre(band[0]), unit.LitresPerHourPerCentimetre(band[1]), source.Practice
}

// SillFlowInput is the input of SillFlow.
type SillFlowInput struct {
	PerWidth unit.FlowPerWidth `sym:"q"`
	Width    unit.Length       `sym:"b"`
}

// SillFlow gives the flow over a whole sill.
//
//	Q = q b    q in m²/s, b in m, Q in m³/s
//
// Source: definition.
var SillFlow = working.Formula[SillFlowInput, unit.Flow]{
	ID: "fall.sill-flow", Name: "flow over the sill", Symbol: "Q", Equation: "Q = q b", Source: source.Definition,
	Eval: func(in SillFlowInput) unit.Flow { return unit.Flow(float64(in.PerWidth) * in.Width.Metres()) },
}

// SillHeadInput is the input of SillHead.
type SillHeadInput struct {
	Flow  unit.Flow   `sym:"Q"`
	Width unit.Length `sym:"b"`
}

// SillHead gives how high the water stands over a broad level sill, read three or four depths upstream of it.
//
//	h = (3/2) [Q²/(g b²)]^(1/3)    Q in m³/s, b and h in m, g = 9.80665 m/s²
//
// Holds for a sill broad enough for parallel flow and h above some 60 mm; garden falls run at 8 to 25 mm, where it is
// right to about a fifth. At the very edge the water is half as deep.
// Source: critical flow over a broad crest, from the energy of open-channel flow.
var SillHead = working.Formula[SillHeadInput, unit.Length]{
	ID: "fall.sill-head", Name: "height of the water over the sill", Symbol: "h", Equation: "h = (3/2) [Q²/(g b²)]^(1/3)",
	Source: source.CriticalFlow,
	Outside: func(in SillHeadInput) string {
		if sillHead(in) < unit.Millimetres(60) {
			return "less than 60 mm over the sill: right to about a fifth"
		}
		return ""
	},
	Eval: sillHead,
}

func sillHead(in SillHeadInput) unit.Length {
	q := in.Flow.CubicMetresPerSecond() / in.Width.Metres()
	return unit.Metres(1.5 * math.Cbrt(q*q/water.Gravity))
}

// Formulas lists the formulas of this package.
func Formulas() []working.Entry { return []working.Entry{&SillFlow, &SillHead} }
