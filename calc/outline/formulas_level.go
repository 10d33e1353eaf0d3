package outline

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// PartInput is the upper part of a layer of water whose section is A + A' x + c x² at x below its top, and what lies above it.
type PartInput struct {
	Above unit.Volume `sym:"V0"`
	Area  unit.Area   `sym:"A"`
	Slope unit.Length `sym:"A'"` // change of the section a metre down
	Bend  float64     `sym:"c"`
	Down  unit.Length `sym:"x"`
}

// LayerPart gives the volume (m³) between the full level and one that lies x below the top of a layer:
//
//	V = V0 + x (A + x (A'/2 + c x/3))
//
// Valid down to the foot of the layer.
//
// Source: derived; the integral of the section.
var LayerPart = working.Formula[PartInput, unit.Volume]{
	ID: "outline.layer-part", Name: "water above a level", Symbol: "V",
	Equation: "V = V0 + x (A + x (A'/2 + c x/3))", Source: source.Prismoidal,
	Eval: func(in PartInput) unit.Volume {
		x := in.Down.Metres()
		return in.Above + unit.CubicMetres(x*(in.Area.SquareMetres()+x*(in.Slope.Metres()/2+in.Bend*x/3)))
	},
}

// ShareInput is a full pond and what lies above a level.
type ShareInput struct {
	Full  unit.Volume `sym:"V"`
	Above unit.Volume `sym:"Va"`
}

// ShareOutput is what lies below the level.
type ShareOutput struct {
	Below unit.Volume `sym:"Vb"`
	Share unit.Ratio  `sym:"s"`
}

// LevelShare gives the water below a level (m³) and its share of the whole:
//
//	Vb = V - Va, s = Vb / V
//
// Source: by definition.
var LevelShare = working.Formula[ShareInput, ShareOutput]{
	ID: "outline.level-share", Name: "water below a level",
	Equation: "Vb = V - Va; s = Vb / V", Source: source.Definition,
	Eval: func(in ShareInput) ShareOutput {
		below := max(0, in.Full-in.Above)
		return ShareOutput{Below: below, Share: unit.Ratio(below / in.Full)}
	},
}

// A Level is a pond whose water has fallen so far.
type Level struct {
	Fallen     unit.Length
	Area       unit.Area
	Lost, Left unit.Volume
	Share      unit.Ratio // left, of the full pond
}

// Level is the pond when all bays have fallen that far.
func (j Joined) Level(t *working.Trail, fallen unit.Length) Level {
	l := Level{Fallen: fallen, Area: j.AreaAt(fallen)}
	for _, bay := range j.Bays {
		l.Lost += bay.lost(t, fallen)
	}
	below := LevelShare.Run(t, ShareInput{Full: j.Volume(), Above: l.Lost})
	l.Left, l.Share = below.Below, below.Share
	return l
}
