package outline

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Measured is what a bay comes to when it is full.
type Measured struct {
	Area      unit.Area   // of the surface
	FloorArea unit.Area   // at the greatest depth
	Perimeter unit.Length // of the water's edge
	Volume    unit.Volume
	MeanDepth unit.Length
	BoxVolume unit.Volume // length by width by greatest depth
	Wetted    unit.Area   // of floor, shelves and sides, measured on the slope: what a lining covers below water
	// VolumeError bounds how far Volume is off, as a share of it, for numerical reasons alone. What the tape gets wrong is
	// many times more.
	VolumeError unit.Ratio
	Method      string // how the volume was found, in one sentence
	Findings    []finding.Finding

	length, width unit.Length
	levels        Curve
}

// Length is the longer side of the smallest rectangle around the plan.
func (m Measured) Length() unit.Length { return m.length }

// Width is the shorter side of the smallest rectangle around the plan.
func (m Measured) Width() unit.Length { return m.width }

// Levels is how area and volume go with the level.
func (m Measured) Levels() Curve { return m.levels }

// Depth is the greatest depth.
func (m Measured) Depth() unit.Length { return m.levels.Depth() }

// Measure finds areas and volume of a full bay. The error is an input.Errors and says which measurement cannot be right.
func Measure(t *working.Trail, b Bay) (Measured, error) {
	if err := b.check().Err(); err != nil {
		return Measured{}, err
	}
	s := b.Plan.surface(t)
	var m Measured
	var err error
	switch {
	case len(b.Contours) > 0:
		m, err = b.byContours(t, s)
	case b.Soundings != nil:
		m, err = b.bySoundings(t, s)
	default:
		m, err = b.bySides(t, s)
	}
	if err != nil {
		return Measured{}, err
	}
	m.Area, m.Perimeter = unit.SquareMetres(s.area), unit.Metres(s.perimeter)
	m.length, m.width = unit.Metres(s.length), unit.Metres(s.width)
	m.MeanDepth = MeanDepth.Run(t, MeanDepthInput{Volume: m.Volume, Area: m.Area})
	m.BoxVolume = BoxVolume.Run(t, BoxInput{Length: m.length, Width: m.width, Depth: m.Depth()})
	m.Findings = append(boxFindings(m), m.Findings...)
	return m, nil
}

// bySides follows the edge inwards down the sides and over the shelves.
func (b Bay) bySides(t *working.Trail, s surface) (Measured, error) {
	const beyond = 1 + 1e-6 // far enough to see sides that meet just at the floor
	in, err := b.Plan.inset(s, beyond*b.reach())
	if err != nil {
		return Measured{}, err
	}
	if err := b.checkRoom(in); err != nil {
		return Measured{}, err
	}
	layers := layersOf(in, b.sides())
	m := Measured{Method: method(s, b, len(layers)), levels: newCurve(layers), Findings: b.sideFindings(in)}
	m.FloorArea, m.Volume = sumLayers(t, layers)
	m.Wetted = unit.SquareMetres(m.levels.wettedBelow(0))
	m.VolumeError = volumeError(in, b, s.area, m.Volume)
	return m, nil
}

// sumLayers adds up the layers and gives the section of the last at its foot.
func sumLayers(t *working.Trail, layers []layer) (floor unit.Area, volume unit.Volume) {
	for _, l := range layers {
		section := func(z float64) unit.Area {
			return InsetArea.Run(t, InsetInput{
				Area: unit.SquareMetres(l.stretch.area), Perimeter: unit.Metres(l.stretch.perimeter), Corners: l.stretch.corners,
				Inset: unit.Metres(l.inset + l.batter*(z-l.top) - l.stretch.from),
			})
		}
		body := PrismoidInput{Top: section(l.top), Height: unit.Metres(l.bottom - l.top)}
		body.Middle, body.Bottom = body.Top, body.Top
		if l.batter > 0 {
			body.Middle, body.Bottom = section((l.top+l.bottom)/2), section(l.bottom)
		}
		volume = LayerSum.Run(t, LayerSumInput{Above: volume, Layer: Prismoid.Run(t, body)})
		floor = body.Bottom
	}
	return floor, volume
}

// volumeError holds rounding, the breaks in area where sides meet, and the small stretches an ellipse is followed in.
func volumeError(in inset, b Bay, area float64, volume unit.Volume) unit.Ratio {
	wrongArea := in.jumps + in.fit*area
	return unit.Ratio(rounding + wrongArea*b.Depth.Metres()/volume.CubicMetres())
}

// rounding is how far a volume can be off for the last bits of its parts, as a share of it.
const rounding = 1e-9

// method says how the volume was found.
func method(s surface, b Bay, layers int) string {
	if len(b.Steps) == 0 && b.Batter == 0 {
		return s.how + ", times the depth."
	}
	return fmt.Sprintf("%s, its edge moved inwards parallel to itself, and %s of water by the prismoidal rule.",
		s.how, plural(layers, "layer"))
}

func plural(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
