package wire

import (
	"errors"
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/stone"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Pond is a pond that was measured.
type Pond struct {
	Volume   unit.Volume // without what stone and baskets take the place of
	Surface  unit.Area
	Measures *pb.PondMeasures
	Findings []finding.Finding

	Names  []string
	Bays   []outline.Bay
	Sized  []outline.Measured
	Joined outline.Joined
}

func (p *Pond) note(found ...finding.Finding) { p.Findings = append(p.Findings, found...) }

// MeasurePond measures every bay and adds them up. Errors carry field paths from the pond on.
func MeasurePond(t *working.Trail, p *pb.Pond) (Pond, error) {
	return MeasurePondUntil(func() bool { return false }, t, p)
}

// ErrStopped says that a caller is gone before the answer is there.
var ErrStopped = errors.New("stopped")

// MeasurePondUntil is MeasurePond, asking before each bay whether to stop, and then ends with ErrStopped.
func MeasurePondUntil(stop func() bool, t *working.Trail, p *pb.Pond) (Pond, error) {
	var errs input.Errors
	pond := Pond{Measures: &pb.PondMeasures{}, Joined: outline.Joined{Saddle: unit.Metres(p.GetSaddleDepthM())}}
	for i, b := range p.GetBays() {
		if stop() {
			return Pond{}, ErrStopped
		}
		name := or(b.GetName(), fmt.Sprintf("bay %d", i+1))
		t.About(name)
		bay, m, err := MeasureBay(t, b)
		if err != nil {
			if !errs.AddUnder(fmt.Sprintf("bays[%d]", i), err) {
				return Pond{}, fmt.Errorf("measure %s: %w", name, err)
			}
			continue
		}
		pond.add(name, bay, m)
	}
	if len(errs) == 0 && p.SaddleDepthM != nil {
		errs.AddUnder("", pond.Joined.Check())
	}
	t.About("pond")
	pond.displace(t, &errs, p.GetDisplacing())
	if err := errs.Err(); err != nil {
		return Pond{}, err
	}
	pond.Measures.SurfaceM2 = pond.Surface.SquareMetres()
	pond.Measures.MeanDepthM = pond.Joined.Volume().CubicMetres() / pond.Surface.SquareMetres()
	return pond, nil
}

// MeasureBay measures one bay. Its findings begin with those of its survey. Errors carry field paths from the bay on.
func MeasureBay(t *working.Trail, b *pb.Bay) (outline.Bay, outline.Measured, error) {
	bay, drawn, err := readBay(t, b)
	if err != nil {
		return outline.Bay{}, outline.Measured{}, err
	}
	m, err := outline.Measure(t, bay)
	if err != nil {
		return outline.Bay{}, outline.Measured{}, drawn.rename(err)
	}
	m.Findings = append(drawn.Findings, m.Findings...)
	return bay, m, nil
}

func (p *Pond) add(name string, b outline.Bay, m outline.Measured) {
	p.Names, p.Bays, p.Sized = append(p.Names, name), append(p.Bays, b), append(p.Sized, m)
	p.Joined.Bays = append(p.Joined.Bays, m.Levels())
	p.Volume += m.Volume
	p.Surface += m.Area
	for _, f := range m.Findings {
		f.Subject = name
		p.note(f)
	}
	p.Measures.BoxVolumeL += m.BoxVolume.Litres()
	p.Measures.Bays = append(p.Measures.Bays, &pb.BayMeasures{
		Name: name, VolumeL: m.Volume.Litres(), SurfaceM2: m.Area.SquareMetres(), FloorM2: m.FloorArea.SquareMetres(),
		PerimeterM: m.Perimeter.Metres(), MeanDepthM: m.MeanDepth.Metres(), LengthM: m.Length().Metres(), WidthM: m.Width().Metres(),
		DepthM: m.Depth().Metres(), Method: m.Method, VolumeErrorPercent: m.VolumeError.Percent(), WettedM2: m.Wetted.SquareMetres(),
	})
}

// displace takes off what stands in the water.
func (p *Pond) displace(t *working.Trail, errs *input.Errors, things []*pb.Displacing) {
	holds := p.Volume
	displaced, err := stone.Displaced(t, p.displacing(things))
	errs.AddUnder("", err)
	if len(*errs) == 0 && displaced >= holds {
		errs.Add("displacing", "look for a wrong unit", "what stands in the water takes the place of %.0f L, and the pond holds %.0f L",
			displaced.Litres(), holds.Litres())
	}
	if displaced > 0 && len(*errs) == 0 {
		p.note(stone.Displacement(displaced, holds))
		p.Volume -= displaced
	}
	p.Measures.VolumeL, p.Measures.DisplacedL, p.Measures.NetVolumeL = holds.Litres(), displaced.Litres(), p.Volume.Litres()
}

func (p *Pond) displacing(things []*pb.Displacing) []stone.Displacing {
	made := make([]stone.Displacing, len(things))
	for i, d := range things {
		one := stone.Displacing{Count: 1, Bulk: unit.Litres(d.GetBulkL()), Mass: unit.Kilograms(d.GetMassKg()), Under: 1}
		if d.Count != nil {
			one.Count = int(d.GetCount())
		}
		if d.UnderPercent != nil {
			one.Under = unit.Percent(d.GetUnderPercent())
		}
		if one.Bulk > 0 {
			one.Void = void(p, d.GetName(), d.VoidPercent)
		} else {
			one.Density = stoneDensity(p, d.GetName(), d.DensityKgPerM3)
		}
		made[i] = one
	}
	return made
}
