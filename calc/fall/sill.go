package fall

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

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
