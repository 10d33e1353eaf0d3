package service

import (
	"context"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/lining"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s volume) SizeLining(_ context.Context, req *pb.SizeLiningRequest) (*pb.SizeLiningResponse, error) {
	t := trail(req.GetWorkings())
	bay, m, err := wire.MeasureBay(nil, req.GetBay())
	if err != nil {
		return nil, refused(err, "bay")
	}
	l := liningOrder{trail: t, bay: bay, req: req, resp: &pb.SizeLiningResponse{}}
	l.notes.Add(m.Findings...)
	l.edge = l.notes.LiningEdge(req.GetEdge())
	l.weight = l.notes.LiningWeight(req)
	l.sheet()
	l.underlay()
	l.boxed()
	if err := l.errs.Err(); err != nil {
		return nil, refused(err, "")
	}
	l.resp.Findings, l.resp.Workings = wire.Findings(l.notes.Findings), wire.Workings(t)
	l.resp.Provenance, err = s.engine.provenance(req, nil)
	return l.resp, err
}

// A liningOrder is a lining on its way to an answer.
type liningOrder struct {
	trail  *working.Trail
	bay    outline.Bay
	edge   lining.Edge
	weight wire.LiningWeight
	notes  wire.Notes
	errs   input.Errors
	req    *pb.SizeLiningRequest
	resp   *pb.SizeLiningResponse
}

// sheet sizes the flat sheet, cuts and weighs it.
func (l *liningOrder) sheet() {
	l.trail.About("lining")
	order, err := lining.Size(l.trail, l.bay, l.edge)
	if err != nil {
		l.errs.AddUnder("", err)
		return
	}
	l.notes.Add(order.Findings...)
	l.resp.Developed, l.resp.Rule = wire.LiningSheet(order.Developed), wire.LiningSheet(order.Rule)
	l.resp.CoveredM2, l.resp.WastePercent = order.Covered.SquareMetres(), order.Waste.Percent()
	l.resp.Cut = l.cut("roll", order.Sheet(), l.req.GetRoll())
	if mass, ok := l.weigh(order.Sheet().Area()); ok {
		l.resp.MassKg, l.resp.People = new(mass.Kilograms()), new(int32(lining.People(mass)))
	}
}

// cut makes a sheet up from a roll, where there is one.
func (l *liningOrder) cut(path string, s lining.Sheet, roll *pb.SheetRoll) *pb.SizeLiningResponse_Cut {
	if roll == nil {
		return nil
	}
	cut, err := lining.FromRoll(l.trail, s, unit.Metres(roll.GetWidthM()), unit.Metres(roll.GetLapM()))
	if err != nil {
		l.errs.AddUnder(path, err)
		return nil
	}
	return wire.LiningCut(cut)
}

// weigh is the mass of that much lining, where it is known what it is.
func (l *liningOrder) weigh(area unit.Area) (unit.Mass, bool) {
	switch w := l.weight; {
	case w.Areal != nil:
		return lining.ArealMass.Run(l.trail, lining.ArealInput{Area: area, Weight: *w.Areal}), true
	case w.Material != nil:
		return lining.SheetMass.Run(l.trail, lining.MassInput{Area: area, Thickness: w.Thickness, Density: w.Material.Density}), true
	default:
		return 0, false
	}
}

// underlay is a sheet as far as the rim.
func (l *liningOrder) underlay() {
	want := l.req.GetUnderlay()
	if want == nil || len(l.errs) > 0 {
		return
	}
	l.trail.About("underlay")
	order, err := lining.Size(l.trail, l.bay, lining.Edge{Freeboard: l.edge.Freeboard})
	if err != nil {
		l.errs.AddUnder("underlay", err)
		return
	}
	made := &pb.SizeLiningResponse_Underlay{
		Sheet: wire.LiningSheet(order.Sheet()), Cut: l.cut("underlay.roll", order.Sheet(), want.GetRoll()),
	}
	if want.MassGPerM2 != nil {
		mass := lining.ArealMass.Run(l.trail, lining.ArealInput{Area: order.Sheet().Area(), Weight: unit.GramsPerSquareMetre(want.GetMassGPerM2())})
		made.MassKg = new(mass.Kilograms())
	}
	l.resp.Underlay = made
}

// boxed is the lining welded to the pond's shape.
func (l *liningOrder) boxed() {
	if !l.req.GetBoxed() || len(l.errs) > 0 {
		return
	}
	l.trail.About("boxed lining")
	box, err := lining.Boxed(l.trail, l.bay, l.edge)
	if err != nil {
		l.errs.AddUnder("bay", err)
		return
	}
	l.resp.Box = &pb.SizeLiningResponse_Box{
		LengthM: box.Length.Metres(), WidthM: box.Width.Metres(), DepthM: box.Depth.Metres(), MaterialM2: box.Material.SquareMetres(),
	}
	if mass, ok := l.weigh(box.Material); ok {
		l.resp.Box.MassKg = new(mass.Kilograms())
	}
}
