package uv

import (
	"errors"
	"fmt"
	"math"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/field"
)

// A Plane is a cut through the chamber.
type Plane int

// The two cuts of a picture.
const (
	Lengthwise Plane = iota + 1 // through the axis and the first lamp: x across, z along
	Crosswise                   // square to the axis at a height: x and y across
)

// A Spot is a place in the chamber and the light there.
type Spot struct {
	X, Y, Z unit.Length // from mid-arc on the axis; the first lamp stands at x = offset, z runs along
	field.Light
}

// A Grid is the raster of a picture, edge to edge.
type Grid struct {
	Plane         Plane
	Columns, Rows int         // across x; along z or across y
	Height        unit.Length // of a crosswise cut, from mid-arc
	Stop          func() bool // asked after each row; true ends the picture with ErrStopped. Nil never does.
}

// ErrStopped means that Grid.Stop ended the picture.
var ErrStopped = errors.New("uv: stopped")

// MaxRaster is the most columns or rows of a picture.
const MaxRaster = 100

// Raster gives the places of a picture that lie in the water, row by row.
func (f Field) Raster(g Grid, offset unit.Length) ([]Spot, error) {
	if err := f.checkGrid(g); err != nil {
		return nil, err
	}
	R, H := f.Chamber.ChamberRadius, f.Chamber.ChamberLength
	var spots []Spot
	for row := range g.Rows {
		if g.Stop != nil && g.Stop() {
			return nil, ErrStopped
		}
		first := len(spots)
		for column := range g.Columns {
			s := Spot{X: along(R, column, g.Columns), Z: g.Height}
			if g.Plane == Lengthwise {
				s.Z = along(H/2, row, g.Rows)
			} else {
				s.Y = along(R, row, g.Rows)
			}
			if f.inWater(s, offset) {
				spots = append(spots, s)
			}
		}
		f.shine(spots[first:], offset)
	}
	return spots, nil
}

// along is the i-th of n places from -half to half.
func along(half unit.Length, i, n int) unit.Length {
	return half * unit.Length(2*float64(i)/float64(n-1)-1)
}

// LightAt gives the light at places that must all lie in the water.
func (f Field) LightAt(spots []Spot, offset unit.Length) error {
	var errs input.Errors
	for i, s := range spots {
		if !f.inWater(s, offset) {
			errs.Add(fmt.Sprintf("places[%d]", i), "give a place between sleeve and wall, from mid-arc on the axis",
				"%.4g, %.4g, %.4g mm is not in the water", s.X.Millimetres(), s.Y.Millimetres(), s.Z.Millimetres())
		}
	}
	if err := errs.Err(); err != nil {
		return err
	}
	f.shine(spots, offset)
	return nil
}

func (f Field) shine(spots []Spot, offset unit.Length) {
	for i := range spots {
		spots[i].Light = field.LightAt.Eval(f.place(spots[i], offset))
	}
}

func (f Field) place(s Spot, offset unit.Length) field.Place {
	c := f.Chamber
	p := field.Place{
		Output: c.Output, Count: 1, ArcLength: c.ArcLength, SleeveRadius: c.SleeveRadius, Absorption: c.Absorption,
		X: s.X, Y: s.Y, Z: s.Z,
	}
	if offset > 0 {
		p.Count, p.Offset = f.lamps, offset
	}
	return p
}

func (f Field) inWater(s Spot, offset unit.Length) bool {
	const rounding = 1 + 1e-9
	r := unit.Metres(math.Hypot(s.X.Metres(), s.Y.Metres()))
	return r <= f.Chamber.ChamberRadius*rounding && unit.Metres(math.Abs(s.Z.Metres())) <= f.Chamber.ChamberLength/2*rounding &&
		!f.place(s, offset).InSleeve()
}

func (f Field) checkGrid(g Grid) error {
	var errs input.Errors
	if g.Plane != Lengthwise && g.Plane != Crosswise {
		errs.Add("plane", "say lengthwise or crosswise", "no such cut: %d", int(g.Plane))
	}
	raster := func(field string, n int) {
		if n < 2 || n > MaxRaster {
			errs.Add(field, "ask for a coarser picture, or for its parts", "%d is not 2 to %d", n, MaxRaster)
		}
	}
	raster("columns", g.Columns)
	raster("rows", g.Rows)
	if h := g.Height.Millimetres(); g.Plane == Crosswise && !(math.Abs(h) <= f.Chamber.ChamberLength.Millimetres()/2) {
		errs.Add("height_mm", "give a height within half the chamber's length of mid-arc", "%g mm is outside the chamber", h)
	}
	return errs.Err()
}
