package service

import (
	"fmt"

	"example.com/pondwright/calc/lining"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// volume asks VolumeService about the job's pond.
func (p *jobPlan) volumes() volume { return volume{engine: p.engine} }

// water measures the pond, and draws each bay.
func (p *jobPlan) water() error {
	at := placing{"pond": "brief.pond"}.at
	pond := p.job.GetBrief().GetPond()
	measured, err := p.volumes().CalculateVolume(p.ctx, &pb.CalculateVolumeRequest{Pond: pond, Workings: p.req.GetWorkings()})
	if err != nil {
		return p.faults.add(err, at)
	}
	levels, err := p.volumes().CalculateLevels(p.ctx, &pb.CalculateLevelsRequest{Pond: pond, FreeboardM: p.freeboard()})
	if err != nil {
		return p.faults.add(err, at)
	}
	p.take("water", measured)
	p.take("water", levels)
	made := &pb.PlannedWater{Pond: measured.GetMeasures(), Levels: levels, Findings: measured.GetFindings()}
	for i, bay := range pond.GetBays() {
		drawing, err := p.drawing(bay, measured.GetMeasures().GetBays()[i])
		if err != nil {
			return p.faults.add(err, placing{"": wire.BayPath(i)}.at)
		}
		made.Drawings = append(made.Drawings, drawing)
	}
	p.made.Water = made
	return nil
}

func (p *jobPlan) freeboard() *float64 {
	if e := p.job.GetLining().GetEdge(); e != nil {
		return e.FreeboardM
	}
	return nil
}

// drawing is one bay to scale.
func (p *jobPlan) drawing(bay *pb.Bay, m *pb.BayMeasures) (*pb.BayDrawing, error) {
	survey := &pb.SurveyOutlineRequest{}
	copyOneof(bay, survey, "outline")
	outline, err := p.volumes().SurveyOutline(p.ctx, survey)
	if err != nil {
		return nil, err
	}
	levels, err := p.volumes().CalculateLevels(p.ctx, &pb.CalculateLevelsRequest{Pond: &pb.Pond{Bays: []*pb.Bay{bay}}})
	if err != nil {
		return nil, err
	}
	measured, _, err := wire.MeasureBay(nil, bay)
	if err != nil {
		return nil, err
	}
	made := &pb.BayDrawing{
		Bay: m.GetName(), Outline: outline.GetPoints(), LengthM: m.GetLengthM(), WidthM: m.GetWidthM(), DepthM: m.GetDepthM(), Bank: wire.Bank(measured),
	}
	for _, l := range levels.GetLevels() {
		made.Lines = append(made.Lines, &pb.DepthLine{DepthM: l.GetFallenM(), AreaM2: l.GetAreaM2()})
	}
	return made, nil
}

// quantities sizes lining, dig and stone.
func (p *jobPlan) quantities() error {
	if err := p.need(pb.PlanPart_PLAN_PART_WATER); err != nil || p.made.Water == nil {
		return err
	}
	made := &pb.PlannedQuantities{}
	for i, bay := range p.job.GetBrief().GetPond().GetBays() {
		req := wire.LiningRequest(p.job, bay)
		req.Workings = p.req.GetWorkings()
		lining, err := p.volumes().SizeLining(p.ctx, req)
		if err != nil {
			places := placing{"": "lining", "bay": wire.BayPath(i)}
			if err := p.faults.add(err, places.at); err != nil {
				return err
			}
			continue
		}
		name := p.made.Water.GetDrawings()[i].GetBay()
		p.take("lining, "+name, lining)
		made.Linings = append(made.Linings, &pb.BayLining{Bay: name, Lining: lining})
	}
	var notes wire.Notes
	req := notes.DigRequest(p.job)
	req.Workings = p.req.GetWorkings()
	dug, err := p.volumes().PlanDig(p.ctx, req)
	if err != nil {
		if err := p.faults.add(err, placing{"": "site", "pond": "brief.pond", "freeboard_m": "lining.edge.freeboard_m"}.at); err != nil {
			return err
		}
	} else {
		p.take("dig", dug)
		made.Dig = dug
	}
	if err := p.stone(made); err != nil {
		return err
	}
	made.Findings = wire.Findings(notes.Findings)
	if len(p.faults.errs) == 0 {
		made.Lines = append(quantityLines(made), p.streamLines()...)
		p.made.Quantities = made
	}
	return nil
}

func (p *jobPlan) stone(made *pb.PlannedQuantities) error {
	req := wire.StoneRequest(p.job)
	if req == nil {
		return nil
	}
	req.Workings = p.req.GetWorkings()
	stone, err := p.volumes().PlanStone(p.ctx, req)
	if err != nil {
		return p.faults.add(err, placing{"edging": "edging", "beds": "beds", "fall": "fall_build.stone", "pond": "brief.pond"}.at)
	}
	p.take("stone", stone)
	made.Stone = stone
	return nil
}

// streamLines is the lining of a stream, which laps over that of the pond: as wide as the bed with its banks and edges, by the rule of
// the trade.
func (p *jobPlan) streamLines() []*pb.QuantityLine {
	const bank, lap = 0.15, 0.15 // m, of a low bank and over the pond's lining: common practice
	edge := lining.UsualOverlap
	if e := p.job.GetLining().GetEdge(); e != nil && e.OverlapM != nil {
		edge = unit.Metres(e.GetOverlapM())
	}
	t := p.trail()
	t.About("lining of the stream")
	area, length := 0.0, 0.0
	for _, r := range p.job.GetFallBuild().GetReaches() {
		wide := lining.SimpleRule.Run(t, lining.RuleInput{Span: unit.Metres(r.GetBedM()), Depth: unit.Metres(bank), Edge: edge})
		area, length = area+wide.Metres()*(r.GetLengthM()+lap), length+r.GetLengthM()
	}
	if area == 0 {
		return nil
	}
	p.record("quantities", t)
	return []*pb.QuantityLine{{
		Line: "stream_lining", Name: "lining of the stream", Quantity: area, Unit: "m²", Note: fmt.Sprintf("along %.1f m, lapped over the lining of the pond and never behind it", length),
	}}
}

// mortarBag is what one bag of 25 kg, ready mixed, makes of wet mortar: common practice.
const mortarBag = 13.0 // L

// quantityLines is everything to order, dig and cart.
func quantityLines(q *pb.PlannedQuantities) []*pb.QuantityLine {
	var lines []*pb.QuantityLine
	add := func(line, name string, quantity float64, unit string) *pb.QuantityLine {
		lines = append(lines, &pb.QuantityLine{Line: line, Name: name, Quantity: quantity, Unit: unit})
		return lines[len(lines)-1]
	}
	for _, b := range q.GetLinings() {
		l := b.GetLining()
		sheet := l.GetDeveloped()
		if sheet == nil {
			sheet = l.GetRule()
		}
		one := add("lining", "lining, "+b.GetBay(), boughtOf(sheet, l.GetCut()), "m²")
		one.WastePercent = new(l.GetWastePercent())
		one.Note = fmt.Sprintf("a sheet of %.2f by %.2f m", sheet.GetLengthM(), sheet.GetWidthM())
		if l.GetMassKg() > 0 {
			one.Note += fmt.Sprintf(", %.0f kg", l.GetMassKg())
		}
		if u := l.GetUnderlay(); u != nil {
			fleece := add("underlay", "underlay, "+b.GetBay(), boughtOf(u.GetSheet(), u.GetCut()), "m²")
			fleece.Note = fmt.Sprintf("%d strips of %.2f m", u.GetCut().GetStrips(), u.GetCut().GetStripLengthM())
		}
	}
	d := q.GetDig()
	add("turf", "turf to lift and stack", d.GetTurfM2(), "m²")
	add("dig", "ground to dig, as it lies", d.GetTotalM3(), "m³")
	add("spoil", "spoil to cart, loose", d.GetCartedLooseM3(), "m³").Note = fmt.Sprintf("%.1f t", d.GetCartedMassKg()/1000)
	for _, l := range d.GetLoads() {
		add("loads", "loads, "+l.GetVehicle(), float64(l.GetLoads()), "loads").Note = "one way or another, not all of them"
	}
	return append(lines, stoneLines(q.GetStone())...)
}

func boughtOf(s *pb.SizeLiningResponse_Sheet, c *pb.SizeLiningResponse_Cut) float64 {
	if c != nil {
		return c.GetBoughtM2()
	}
	return s.GetAreaM2()
}

func stoneLines(s *pb.PlanStoneResponse) []*pb.QuantityLine {
	var lines []*pb.QuantityLine
	add := func(line, name string, quantity float64, unit, note string) {
		lines = append(lines, &pb.QuantityLine{Line: line, Name: name, Quantity: quantity, Unit: unit, Note: note})
	}
	if e := s.GetEdging(); e != nil {
		add("edging", "edge stones", e.GetMassT(), "t", fmt.Sprintf("%d stones along %.1f m", e.GetStones(), e.GetEdgeM()))
		if e.GetMortarL() > 0 {
			add("mortar", "mortar, wet", e.GetMortarL(), "L", "without waste")
			add("mortar_bags", "bags of mortar, 25 kg, ready mixed", bags(e.GetMortarL()), "bags", fmt.Sprintf("%g L to the bag, common practice; a tenth for waste", mortarBag))
		}
	}
	for _, b := range s.GetBeds() {
		add("bed", b.GetName(), b.GetMassT(), "t", fmt.Sprintf("%.2f m³ heaped", b.GetBulkM3()))
	}
	if f := s.GetFall(); f != nil {
		add("spill_stones", "spill stones", float64(f.GetSpillStones()), "stones", fmt.Sprintf("each %.2f m across and %.0f kg", f.GetSpillLengthM(), f.GetSpillMassKg()))
		if f.GetWallMassT() > 0 {
			add("fall_wall", "rough stone of the fall", f.GetWallMassT(), "t", "")
		}
	}
	return lines
}
