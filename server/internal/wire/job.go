package wire

import (
	"fmt"
	"time"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// What stands in for what a job leaves out, of common practice.
const (
	usualTurf    = 0.05 // m
	usualTopsoil = 0.15 // m
	usualBed     = 0.05 // m
	underlayRoll = 2.0  // m
	underlayLap  = 0.1  // m
)

// StartDay reads the day a job begins, and whether it is told.
func StartDay(w *pb.JobWork) (time.Time, bool, error) {
	text := w.GetStartDay()
	if text == "" {
		return time.Time{}, false, nil
	}
	var errs input.Errors
	day := date(&errs, "start_day", text)
	return day, len(errs) == 0, errs.Err()
}

// DayOn is a day of the job as 2027-04-12: number 1 is the first. Empty without a first day.
func DayOn(first time.Time, known bool, number int) string {
	if !known {
		return ""
	}
	return first.AddDate(0, 0, number-1).Format(time.DateOnly)
}

// DigRequest is the dig of a job. It is worked out by what is usual where the site leaves something out.
func (n *Notes) DigRequest(j *pb.JobBrief) *pb.PlanDigRequest {
	s := j.GetSite()
	if s == nil {
		s = &pb.JobSite{}
	}
	metres := func(said *float64, usual float64, what, change string) float64 {
		return assumed(n, said, usual, assume.Note("dig", what, usual, "m", change))
	}
	req := &pb.PlanDigRequest{
		Pond: j.GetBrief().GetPond(), FreeboardM: freeboardOf(j), Ground: s.GetGround(),
		BankDensityKgPerM3: s.BankDensityKgPerM3, Vehicles: s.GetVehicles(), Mound: s.GetMound(), CartTopsoil: s.GetCartTopsoil(),
		TurfM:    metres(s.TurfM, usualTurf, "How thick the turf is that is lifted", "cut one sod and measure"),
		TopsoilM: metres(s.TopsoilM, usualTopsoil, "How thick the topsoil under it is", "dig a trial hole"),
		BedM:     metres(s.BedM, usualBed, "How thick the bed under the lining is", "say what it is laid on"),
	}
	if req.Ground == pb.GroundKind_GROUND_KIND_UNSPECIFIED {
		req.Ground = pb.GroundKind_GROUND_KIND_LOAM
		n.note(finding.Finding{
			Code: "ASSUMED", Severity: finding.Note, Subject: "dig", Sentence: "The ground was not given; common earth or loam is assumed.",
			Change: "dig a trial hole: clay swells and weighs more", Source: source.Choice,
		})
	}
	if len(req.Vehicles) == 0 {
		req.Vehicles = usualVehicles()
	}
	return req
}

// usualVehicles are a barrow, a skip and a lorry as are usual.
func usualVehicles() []*pb.SpoilVehicle {
	return []*pb.SpoilVehicle{
		{Name: "skip, 4.6 m³", CapacityM3: 4.6, PayloadKg: 6000},
		{Name: "grab lorry, 14 t", CapacityM3: 9, PayloadKg: 14000},
		{Name: "barrow", CapacityM3: 0.06, PayloadKg: 90},
	}
}

// LiningRequest is the lining of one bay of a job.
func LiningRequest(j *pb.JobBrief, bay *pb.Bay) *pb.SizeLiningRequest {
	l := j.GetLining()
	if l == nil {
		l = &pb.JobLining{}
	}
	req := &pb.SizeLiningRequest{
		Bay: bay, Edge: l.GetEdge(), Material: l.GetMaterial(), ThicknessMm: l.ThicknessMm, MassKgPerM2: l.MassKgPerM2, Roll: l.GetRoll(),
		Underlay: l.GetUnderlay(), Boxed: l.GetBoxed(),
	}
	if req.Material == pb.LiningMaterial_LINING_MATERIAL_UNSPECIFIED {
		req.Material = pb.LiningMaterial_LINING_MATERIAL_RUBBER
	}
	if req.Underlay == nil {
		req.Underlay = &pb.UnderlaySheet{Roll: &pb.SheetRoll{WidthM: underlayRoll, LapM: underlayLap}}
	}
	return req
}

// StoneRequest is the stone of a job, or nil where none is asked for.
func StoneRequest(j *pb.JobBrief) *pb.PlanStoneRequest {
	if j.GetEdging() == nil && len(j.GetBeds()) == 0 && j.GetFallBuild().GetStone() == nil {
		return nil
	}
	return &pb.PlanStoneRequest{Round: &pb.PlanStoneRequest_Pond{Pond: j.GetBrief().GetPond()}, Edging: j.GetEdging(), Beds: j.GetBeds(), Fall: j.GetFallBuild().GetStone()}
}

// Bank is the section of a side of a bay that was measured.
func Bank(b outline.Bay) []*pb.BankPoint {
	points := b.Bank()
	made := make([]*pb.BankPoint, len(points))
	for i, p := range points {
		made[i] = &pb.BankPoint{RunM: p.Run.Metres(), DepthM: p.Depth.Metres()}
	}
	return made
}

// KitChosen reports whether an item may be part of the kit that was chosen.
func KitChosen(c *pb.KitChoice) func(*pb.CataloguedItem) bool {
	return func(i *pb.CataloguedItem) bool {
		wanted := ""
		switch i.GetItem().GetKind().(type) {
		case *eq.Item_Pump:
			wanted = c.GetPump()
		case *eq.Item_Hose:
			wanted = c.GetHose()
		case *eq.Item_Filter:
			wanted = c.GetFilter()
		case *eq.Item_LampUnit:
			wanted = c.GetLampUnit()
		}
		return wanted == "" || i.GetItem().GetItemNumber() == wanted
	}
}

// KitKnown says which items of a choice no catalogue holds. Errors carry field paths from the choice on.
func KitKnown(c *pb.KitChoice, items []*pb.CataloguedItem) error {
	var errs input.Errors
	for _, one := range []struct {
		field, number string
		is            func(*eq.Item) bool
	}{
		{"pump", c.GetPump(), func(i *eq.Item) bool { return i.GetPump() != nil }},
		{"hose", c.GetHose(), func(i *eq.Item) bool { return i.GetHose() != nil }},
		{"filter", c.GetFilter(), func(i *eq.Item) bool { return i.GetFilter() != nil }},
		{"lamp_unit", c.GetLampUnit(), func(i *eq.Item) bool { return i.GetLampUnit() != nil }},
	} {
		known := one.number == ""
		for _, item := range items {
			known = known || item.GetItem().GetItemNumber() == one.number && one.is(item.GetItem())
		}
		if !known {
			errs.Add(one.field, "take one that ListItems names, or leave it to the engine", "no catalogue in force has a %s %q", one.field, one.number)
		}
	}
	return errs.Err()
}

// MonthTemperatures reads the water temperatures of the months; none where they were not given.
func MonthTemperatures(said []float64) []unit.Temperature {
	made := make([]unit.Temperature, len(said))
	for i, t := range said {
		made[i] = unit.Celsius(t)
	}
	return made
}

// BayPath is where a bay stands in a job.
func BayPath(i int) string { return fmt.Sprintf("brief.pond.bays[%d]", i) }

// freeboardOf is how far the rim stands above the water, where it is told.
func freeboardOf(j *pb.JobBrief) *float64 {
	if e := j.GetLining().GetEdge(); e != nil {
		return e.FreeboardM
	}
	return nil
}

// SameLining reports whether a lining of a catalogue is of the material asked for; rubber where nothing is asked.
func SameLining(asked pb.LiningMaterial, sold eq.LinerMaterial) bool {
	switch asked {
	case pb.LiningMaterial_LINING_MATERIAL_PVC:
		return sold == eq.LinerMaterial_LINER_MATERIAL_PVC
	case pb.LiningMaterial_LINING_MATERIAL_POLYETHYLENE:
		return sold == eq.LinerMaterial_LINER_MATERIAL_POLYETHYLENE
	default:
		return sold == eq.LinerMaterial_LINER_MATERIAL_EPDM || sold == eq.LinerMaterial_LINER_MATERIAL_BUTYL
	}
}
