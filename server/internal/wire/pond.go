package wire

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Pond is a pond that was measured.
type Pond struct {
	Volume   unit.Volume
	Surface  unit.Area
	Measures *pb.PondMeasures
	Findings []finding.Finding
}

// MeasurePond measures every bay and adds them up. Errors carry field paths from the pond on.
func MeasurePond(t *working.Trail, p *pb.Pond) (Pond, error) {
	var errs input.Errors
	pond := Pond{Measures: &pb.PondMeasures{}}
	for i, b := range p.GetBays() {
		name := b.GetName()
		if name == "" {
			name = fmt.Sprintf("bay %d", i+1)
		}
		t.About(name)
		m, err := outline.Measure(t, bay(b))
		if err != nil {
			if !errs.AddUnder(fmt.Sprintf("bays[%d]", i), err) {
				return Pond{}, fmt.Errorf("measure %s: %w", name, err)
			}
			continue
		}
		pond.add(name, b, m)
	}
	if err := errs.Err(); err != nil {
		return Pond{}, err
	}
	pond.Measures.VolumeL = pond.Volume.Litres()
	pond.Measures.SurfaceM2 = pond.Surface.SquareMetres()
	pond.Measures.MeanDepthM = pond.Volume.CubicMetres() / pond.Surface.SquareMetres()
	return pond, nil
}

func (p *Pond) add(name string, b *pb.Bay, m outline.Measured) {
	p.Volume += m.Volume
	p.Surface += m.Area
	for _, f := range m.Findings {
		f.Subject = name
		p.Findings = append(p.Findings, f)
	}
	p.Measures.BoxVolumeL += m.BoxVolume.Litres()
	p.Measures.Bays = append(p.Measures.Bays, &pb.BayMeasures{
		Name: name, VolumeL: m.Volume.Litres(), SurfaceM2: m.Area.SquareMetres(), FloorM2: m.FloorArea.SquareMetres(),
		PerimeterM: m.Perimeter.Metres(), MeanDepthM: m.MeanDepth.Metres(), LengthM: m.Length().Metres(), WidthM: m.Width().Metres(),
		DepthM: b.GetDepthM(), Method: m.Method, VolumeErrorPercent: m.VolumeError.Percent(),
	})
}

func bay(b *pb.Bay) outline.Bay {
	made := outline.Bay{Plan: plan(b), Depth: unit.Metres(b.GetDepthM()), Batter: unit.Ratio(b.GetBatter())}
	for _, s := range b.GetSteps() {
		made.Steps = append(made.Steps, outline.Step{Depth: unit.Metres(s.GetDepthM()), Width: unit.Metres(s.GetWidthM())})
	}
	return made
}

func plan(b *pb.Bay) outline.Plan {
	switch o := b.GetOutline().(type) {
	case *pb.Bay_Rectangle:
		return outline.Rectangle{Length: unit.Metres(o.Rectangle.GetLengthM()), Width: unit.Metres(o.Rectangle.GetWidthM())}
	case *pb.Bay_Ellipse:
		return outline.Ellipse{Length: unit.Metres(o.Ellipse.GetLengthM()), Width: unit.Metres(o.Ellipse.GetWidthM())}
	case *pb.Bay_Polygon:
		polygon := outline.Polygon{}
		for _, p := range o.Polygon.GetPoints() {
			polygon.Points = append(polygon.Points, outline.Point{X: unit.Metres(p.GetXM()), Y: unit.Metres(p.GetYM())})
		}
		return polygon
	default:
		return nil // refused by the request rules before it comes here, and by outline
	}
}
