package outline

import (
	"fmt"
	"math"
	"strings"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Contour is the area inside the line of one depth.
type Contour struct {
	Depth unit.Length
	Area  unit.Area
}

// Contoured is a pond measured by its contours.
type Contoured struct {
	Volume    unit.Volume
	Low, High unit.Volume // what the contours allow, whatever the sides do between them
	EndAreas  unit.Volume // by the mean of end areas, as handbooks have it
	Findings  []finding.Finding
	levels    Curve
}

// Levels is how area and volume go with the level, with sides straight between contours.
func (c Contoured) Levels() Curve { return c.levels }

// MeasureContours finds the volume of a pond from areas at known depths, from the water's edge (depth 0) to the deepest,
// whose area may be 0. The error is an input.Errors.
func MeasureContours(t *working.Trail, contours []Contour) (Contoured, error) {
	if err := checkContours(contours).Err(); err != nil {
		return Contoured{}, err
	}
	var c Contoured
	var layers []layer
	for i, low := range contours[1:] {
		top := contours[i]
		h := low.Depth - top.Depth
		v := ContourLayer.Run(t, ContourInput{Top: top.Area, Bottom: low.Area, Height: h})
		c.Volume = LayerSum.Run(t, LayerSumInput{Above: c.Volume, Layer: v})
		c.EndAreas += EndArea.Run(t, ContourInput{Top: top.Area, Bottom: low.Area, Height: h})
		c.Low += unit.CubicMetres(h.Metres() * low.Area.SquareMetres())
		c.High += unit.CubicMetres(h.Metres() * top.Area.SquareMetres())
		layers = append(layers, contourLayer(top, low))
	}
	c.levels = newCurve(layers)
	c.Findings = contourFindings(c)
	return c, nil
}

// contourLayer takes the square root of area, the size of the section, to go straight down.
func contourLayer(top, low Contour) layer {
	h := (low.Depth - top.Depth).Metres()
	size := math.Sqrt(top.Area.SquareMetres())
	lean := (math.Sqrt(low.Area.SquareMetres()) - size) / h
	return layer{
		top: top.Depth.Metres(), bottom: low.Depth.Metres(),
		area: size * size, slope: 2 * size * lean, bend: lean * lean,
	}
}

func checkContours(contours []Contour) input.Errors {
	var errs input.Errors
	if len(contours) < 2 || len(contours) > mostSides {
		errs.Add("contours", fmt.Sprintf("give 2 to %d, from the water's edge to the deepest", mostSides),
			"there are %d contours", len(contours))
		return errs
	}
	if contours[0].Depth != 0 {
		errs.Add("contours[0].depth_m", "begin with the water's surface, at depth 0",
			"the first contour is at %g m", contours[0].Depth.Metres())
	}
	for i, c := range contours {
		checkContour(&errs, contours, i, c)
	}
	return errs
}

func checkContour(errs *input.Errors, contours []Contour, i int, c Contour) {
	const largest = longest * longest
	depth, area := fmt.Sprintf("contours[%d].depth_m", i), fmt.Sprintf("contours[%d].area_m2", i)
	if a := c.Area.SquareMetres(); !(a >= 0 && a <= largest) || a == 0 && i == 0 {
		errs.Add(area, "give an area above zero, or zero for the deepest point", "the area cannot be %g m²", a)
	}
	if i == 0 {
		return
	}
	above := contours[i-1]
	if checkLength(errs, depth, "depth", c.Depth) && c.Depth <= above.Depth {
		errs.Add(depth, "give the contours from the surface down, each once",
			"contour %d at %g m is not below contour %d at %g m", i, c.Depth.Metres(), i-1, above.Depth.Metres())
	}
	if c.Area > above.Area {
		errs.Add(area, "measure that contour again", "contour %d is larger than contour %d above it: %.4g m² over %.4g m²",
			i, i-1, c.Area.SquareMetres(), above.Area.SquareMetres())
	}
}

// contourFindings says when the contours are too far apart to dose by.
func contourFindings(c Contoured) []finding.Finding {
	const dosing = 10 // percent
	off := 50 * (c.High - c.Low).CubicMetres() / c.Volume.CubicMetres()
	if off <= dosing {
		return nil
	}
	return []finding.Finding{{
		Code: "CONTOURS_FAR_APART", Severity: finding.Note, Subject: "volume",
		Sentence: fmt.Sprintf("By the contours alone the water can be anything from %s L to %s L; %s L takes the sides to be straight between them.",
			finding.Whole(c.Low.Litres()), finding.Whole(c.High.Litres()), finding.Whole(c.Volume.Litres())),
		Value: finding.Of(off, "%"), Limit: finding.Of(dosing, "%"),
		Change: "Measure one more contour where the area changes most, and give both edges of each shelf.",
		Source: source.Definition,
	}}
}

// byContours measures a bay whose surface is the first contour.
func (b Bay) byContours(t *working.Trail, s surface) (Measured, error) {
	all := append([]Contour{{Area: unit.SquareMetres(s.area)}}, b.Contours...)
	c, err := MeasureContours(t, all)
	if err != nil {
		return Measured{}, belowSurface(err)
	}
	widest := max(c.High-c.Volume, c.Volume-c.Low)
	return Measured{
		FloorArea: all[len(all)-1].Area, Volume: c.Volume, Wetted: wettedByContours(s, all),
		VolumeError: unit.Ratio(rounding + float64(widest/c.Volume)),
		Method: fmt.Sprintf("%s, and %s with straight sides between contours; the mean of end areas would give %s L.",
			s.how, plural(len(b.Contours), "layer"), finding.Whole(c.EndAreas.Litres())),
		Findings: append(c.Findings, wettedEstimated()), levels: c.levels,
	}, nil
}

// belowSurface renames the contours in errors, as the surface is none of those that were given.
func belowSurface(err error) error {
	errs, ok := err.(input.Errors)
	if !ok {
		return err
	}
	for i := range errs {
		var n int
		if _, scanErr := fmt.Sscanf(errs[i].Field, "contours[%d]", &n); scanErr == nil && n > 0 {
			errs[i].Field = fmt.Sprintf("contours[%d]%s", n-1, errs[i].Field[strings.IndexByte(errs[i].Field, ']')+1:])
		}
	}
	return errs
}

// wettedByContours takes each contour to be the surface's outline made smaller.
func wettedByContours(s surface, contours []Contour) unit.Area {
	girth := func(c Contour) float64 { return s.perimeter * math.Sqrt(c.Area.SquareMetres()/s.area) }
	sum := contours[len(contours)-1].Area.SquareMetres()
	for i, low := range contours[1:] {
		top := contours[i]
		mean := (girth(top) + girth(low)) / 2
		run := (top.Area - low.Area).SquareMetres() / mean
		sum += mean * math.Hypot(run, (low.Depth-top.Depth).Metres())
	}
	return unit.SquareMetres(sum)
}

func wettedEstimated() finding.Finding {
	return finding.Finding{
		Code: "WETTED_AREA_ESTIMATED", Severity: finding.Note, Subject: "floor",
		Sentence: "Floor and sides are measured as if each contour had the shape of the water's edge.",
		Change:   "Tape the hole before you order by it.", Source: source.Choice,
	}
}
