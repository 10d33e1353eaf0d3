package field

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Place is a place in the water round one or several parallel lamps.
type Place struct {
	Output       unit.Power                 `sym:"P"` // at 254 nm, of all lamps, what enters the water
	Count        int                        `sym:"n"`
	Offset       unit.Length                `sym:"s"` // of each lamp from the axis of the chamber; the first stands at x = s
	ArcLength    unit.Length                `sym:"L"`
	SleeveRadius unit.Length                `sym:"rs"`
	Absorption   unit.AbsorptionCoefficient `sym:"a"`
	X            unit.Length                `sym:"x"` // across, from the axis of the chamber
	Y            unit.Length                `sym:"y"` // across, square to x
	Z            unit.Length                `sym:"z"` // along, from mid-arc
}

// Light is the fluence rate at a place by each model.
type Light struct {
	Radial     unit.FluenceRate `sym:"Erad"`
	LineSource unit.FluenceRate `sym:"ELSI"`
	Careful    unit.FluenceRate `sym:"E"` // for each lamp the lesser of the two
}

// LightAt gives the fluence rate at a place by every model, summed over the lamps. What the other sleeves shade is not
// counted.
//
//	E = sum over lamps of min(E_radial, E_LSI)        W/m²; both at the distance from the lamp, with P/n each
//
// Valid outside the sleeves. Source: Liu et al. 2004 (rule from memory); the sum is plane geometry.
var LightAt = working.Formula[Place, Light]{
	ID: "field.light-at", Name: "fluence rate at a place, all lamps",
	Equation: "E = sum over lamps of min(E_radial, E_LSI) at distance r from each",
	Source:   source.RadLSI, Outside: lightOutside, Eval: lightAt,
}

func lightAt(p Place) (l Light) {
	for i := range p.Count {
		at := Point{
			Output: p.Output / unit.Power(p.Count), ArcLength: p.ArcLength, SleeveRadius: p.SleeveRadius,
			Absorption: p.Absorption, Radius: p.distance(i), Height: p.Z,
		}
		radial, line := radialAt(at), lineSourceAt(at)
		l.Radial += radial
		l.LineSource += line
		l.Careful += min(radial, line)
	}
	return l
}

func lightOutside(p Place) string {
	if p.InSleeve() {
		return "inside a sleeve"
	}
	return ""
}

// InSleeve says whether the place is within a sleeve, where there is no water. A place on its face, to rounding, is not.
func (p Place) InSleeve() bool {
	const rounding = 1e-9
	for i := range p.Count {
		if p.distance(i) < p.SleeveRadius*(1-rounding) {
			return true
		}
	}
	return false
}

// distance is how far the place lies from the middle of the i-th lamp.
func (p Place) distance(i int) unit.Length {
	sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(p.Count))
	s := p.Offset.Metres()
	return unit.Metres(math.Hypot(p.X.Metres()-s*cos, p.Y.Metres()-s*sin))
}
