package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/circulation"
	"example.com/pondwright/calc/dig"
	"example.com/pondwright/calc/fill"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/lining"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Notes keeps what was assumed.
type Notes struct{ Findings []finding.Finding }

func (n *Notes) note(found ...finding.Finding) { n.Findings = append(n.Findings, found...) }

// Add keeps findings.
func (n *Notes) Add(found ...finding.Finding) { n.note(found...) }

func or(name, otherwise string) string {
	if name == "" {
		return otherwise
	}
	return name
}

// Freeboard reads how far the rim stands above the water.
func (n *Notes) Freeboard(m *float64) unit.Length {
	return assumed(n, optional(m, unit.Metres), lining.UsualFreeboard,
		assume.Note("rim", "How far the rim stands above the water", lining.UsualFreeboard.Metres(), "m", "level it round the edge"))
}

// LiningEdge reads what the lining does above the water.
func (n *Notes) LiningEdge(m *pb.LiningEdge) lining.Edge {
	if m == nil {
		m = &pb.LiningEdge{}
	}
	return lining.Edge{
		Freeboard: n.Freeboard(m.FreeboardM),
		Overlap: assumed(n, optional(m.OverlapM, unit.Metres), lining.UsualOverlap,
			assume.Note("lining", "How far it goes beyond the rim", lining.UsualOverlap.Metres(), "m", "say what the edging needs")),
		TrenchDepth: unit.Metres(m.GetTrenchDepthM()), TrenchWidth: unit.Metres(m.GetTrenchWidthM()),
	}
}

// A LiningWeight is what a square metre of it weighs: by the data sheet, or by material and thickness.
type LiningWeight struct {
	Areal     *unit.ArealDensity
	Material  *lining.Material
	Thickness unit.Length
}

// LiningWeight reads what the lining weighs, as far as it was told.
func (n *Notes) LiningWeight(m *pb.SizeLiningRequest) LiningWeight {
	w := LiningWeight{Areal: optional(m.MassKgPerM2, unit.KilogramsPerSquareMetre)}
	if material, ok := liningMaterials[m.GetMaterial()]; ok && w.Areal == nil {
		w.Material = &material
		w.Thickness = assumed(n, optional(m.ThicknessMm, unit.Millimetres), lining.UsualThickness,
			assume.Note("lining", "Its thickness", lining.UsualThickness.Millimetres(), "mm", "take it from the data sheet"))
	}
	return w
}

var liningMaterials = map[pb.LiningMaterial]lining.Material{
	pb.LiningMaterial_LINING_MATERIAL_RUBBER:       lining.Rubber,
	pb.LiningMaterial_LINING_MATERIAL_PVC:          lining.Vinyl,
	pb.LiningMaterial_LINING_MATERIAL_POLYETHYLENE: lining.Polyethylene,
}

// LiningSheet turns a sheet into a message; no sheet is none.
func LiningSheet(s lining.Sheet) *pb.SizeLiningResponse_Sheet {
	if s == (lining.Sheet{}) {
		return nil
	}
	return &pb.SizeLiningResponse_Sheet{LengthM: s.Length.Metres(), WidthM: s.Width.Metres(), AreaM2: s.Area().SquareMetres()}
}

// LiningCut turns how a sheet is cut into a message.
func LiningCut(c lining.Cut) *pb.SizeLiningResponse_Cut {
	return &pb.SizeLiningResponse_Cut{
		Strips: int32(c.Strips), StripLengthM: c.Strip.Length.Metres(), JoinsM: c.Joins.Metres(), BoughtM2: c.Bought.SquareMetres(),
		OnePiece: c.OnePiece, Crosswise: c.Crosswise,
	}
}

// Ground reads the kind of ground and what it weighs.
func Ground(m *pb.PlanDigRequest) dig.Soil {
	soil := grounds[m.GetGround()]
	if m.BankDensityKgPerM3 != nil {
		soil.Density = density(m.GetBankDensityKgPerM3())
	}
	return soil
}

var grounds = map[pb.GroundKind]dig.Soil{
	pb.GroundKind_GROUND_KIND_DRY_SAND:     dig.DrySand,
	pb.GroundKind_GROUND_KIND_LOAM:         dig.Loam,
	pb.GroundKind_GROUND_KIND_CLAY:         dig.Clay,
	pb.GroundKind_GROUND_KIND_BLASTED_ROCK: dig.BlastedRock,
	pb.GroundKind_GROUND_KIND_CHALK:        dig.Chalk,
	pb.GroundKind_GROUND_KIND_MADE_GROUND:  dig.MadeGround,
}

// Spoil turns spoil into a message.
func Spoil(s dig.Spoil) *pb.PlanDigResponse_Spoil {
	return &pb.PlanDigResponse_Spoil{
		BankM3: s.Bank.CubicMetres(), LooseM3: s.Loose.CubicMetres(), CompactedM3: given(s.Compacted.CubicMetres()), MassKg: s.Mass.Kilograms(),
	}
}

// Mound reads which share of the subsoil is heaped, and how steeply.
func (n *Notes) Mound(m *pb.SpoilMound) (kept, slope unit.Ratio) {
	kept = 1
	if m.SharePercent != nil {
		kept = unit.Percent(m.GetSharePercent())
	}
	return kept, assumed(n, optional(m.RisePerM, func(r float64) unit.Ratio { return unit.Ratio(r) }), dig.PlantedSlope,
		assume.Note("mound", "How steep its sides are", dig.PlantedSlope.Float(), "m up for each metre out", "1 in 2 is the steepest that is planted and kept"))
}

// Positions reads where intake and returns are.
func Positions(ms []*pb.PumpPosition) []circulation.Position {
	made := make([]circulation.Position, len(ms))
	for i, m := range ms {
		winter := m.GetSeason() == pb.PumpSeason_PUMP_SEASON_WINTER
		name := or(m.GetName(), map[bool]string{false: "summer", true: "winter"}[winter])
		made[i] = circulation.Position{Name: name, Winter: winter, Intake: place(m.GetIntake())}
		for _, r := range m.GetReturns() {
			made[i].Returns = append(made[i].Returns, place(r))
		}
	}
	return made
}

func place(m *pb.PlaceInWater) circulation.Place {
	return circulation.Place{At: point(m.GetAt()), Depth: unit.Metres(m.GetDepthM())}
}

// Course turns a course of the water into a message.
func Course(name string, c circulation.Course) *pb.CheckCirculationResponse_Course {
	return &pb.CheckCirculationResponse_Course{
		Name: name, WayM: c.Way.Metres(), SharePercent: c.Share.Percent(), FarthestM: c.Farthest.Metres(),
		DeadEnds: Points(c.DeadEnds), StillL: c.Still.Litres(),
	}
}

// VolumeBand turns an estimate into a message.
func VolumeBand(e fill.Estimate) *pb.Band {
	return &pb.Band{Low: e.Low.Litres(), Expected: e.Expected.Litres(), High: e.High.Litres()}
}

// Salting reads a salt test.
func (n *Notes) Salting(m *pb.SaltTest) fill.Salting {
	return fill.Salting{
		Mass: unit.Kilograms(m.GetMassKg()), Before: unit.KilogramsPerCubicMetre(m.GetBeforeGPerL()), After: unit.KilogramsPerCubicMetre(m.GetAfterGPerL()),
		Purity:  assumed(n, optional(m.PurityPercent, unit.Percent), 1, assume.Note("salt", "Its purity", 100, "%", "take it from the sack")),
		MassOff: n.Off("salt", "How far the scale may be off", m.MassUncertaintyPercent, fill.ScaleOff),
		ReadingOff: assumed(n, optional(m.ReadingUncertaintyGPerL, unit.KilogramsPerCubicMetre), fill.ReadingOff,
			assume.Note("salt", "How far each reading may be off", fill.ReadingOff.KilogramsPerCubicMetre(), "g/L", "take it from the meter's booklet")),
	}
}

// Off reads how far something may be off.
func (n *Notes) Off(subject, what string, percent *float64, usual unit.Ratio) unit.Ratio {
	return assumed(n, optional(percent, unit.Percent), usual, assume.Note(subject, what, usual.Percent(), "%", "say so if it is better known"))
}
