package wire

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"example.com/pondwright/calc/defect"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// CurveItem reads a curve that is to be checked. Whatever its numbers are, they come as they are; those that are missing are NaN.
func CurveItem(m *pb.CurveItem) defect.Curve {
	var one CurveItems
	return one.Read([]*pb.CurveItem{m})[0]
}

// CurveItems reads the curves of one message after the other into the same memory.
type CurveItems struct {
	curves []defect.Curve
	points []pump.Point
}

// Read reads curves, which are good until the next call.
func (c *CurveItems) Read(items []*pb.CurveItem) []defect.Curve {
	n := 0
	for _, m := range items {
		n += len(m.GetPump().GetCurve()) + len(m.GetMeasured())
	}
	c.points = slices.Grow(c.points[:0], n)
	c.curves = slices.Grow(c.curves[:0], len(items))
	for _, m := range items {
		c.curves = append(c.curves, c.read(m))
	}
	return c.curves
}

func (c *CurveItems) read(m *pb.CurveItem) defect.Curve {
	p := m.GetPump()
	return defect.Curve{
		Number: m.GetItemNumber(), Series: m.GetSeries(),
		Points: c.take(p.GetCurve()), Measured: c.take(m.GetMeasured()),
		Power: unit.Watts(p.GetPowerW()), AtShaft: m.GetPowerPlace() == pb.PowerPlace_POWER_PLACE_SHAFT,
		LabelFlow: unit.LitresPerHour(p.GetLabelFlowLPerH()), LabelHead: unit.MetresOfWater(p.GetLabelHeadM()),
	}
}

// take reads points behind those that were read before. No slice of them reaches into the next.
func (c *CurveItems) take(given []*eq.CurvePoint) []pump.Point {
	if len(given) == 0 {
		return nil
	}
	from := len(c.points)
	for _, p := range given {
		q, h := math.NaN(), math.NaN()
		if p.FlowLPerH != nil {
			q = *p.FlowLPerH
		}
		if p.HeadM != nil {
			h = *p.HeadM
		}
		c.points = append(c.points, pump.Point{Flow: unit.LitresPerHour(q), Head: unit.MetresOfWater(h), Power: unit.Watts(p.GetPowerW())})
	}
	return slices.Clip(c.points[from:])
}

// CurveResult turns what was found in one curve into a message. of is the curve as it came.
func CurveResult(r defect.Result, of *pb.CurveItem) *pb.CurveResult {
	m := &pb.CurveResult{Place: int32(r.Place), ItemNumber: of.GetItemNumber()}
	for _, d := range r.Defects {
		made := &pb.CurveDefect{
			Code: d.Code, Severity: severities[d.Severity], Sentence: d.Sentence, Confidence: d.Confidence, Change: d.Change, Source: Source(d.Source),
		}
		for _, e := range d.Evidence {
			evidence := &pb.CurveEvidence{Name: e.Name, Value: quantity(finite(e.Value))}
			if e.Point != defect.NoPoint {
				point := int32(e.Point)
				evidence.Point = &point
			}
			made.Evidence = append(made.Evidence, evidence)
		}
		m.Defects = append(m.Defects, made)
	}
	if r.Repair != nil {
		m.Repair = &pb.CurveRepair{
			Pump: repaired(r.Repair.Curve, of.GetPump()), Changes: r.Repair.Changes, MendedCodes: r.Repair.Mends, Confidence: r.Repair.Confidence,
		}
	}
	return m
}

// finite keeps what JSON cannot carry out of a message.
func finite(v finding.Value) *finding.Value {
	if math.IsNaN(v.Number) || math.IsInf(v.Number, 0) {
		return nil
	}
	return &v
}

// repaired is the pump as it was given, with the curve and the power of the repair.
func repaired(c defect.Curve, given *eq.Pump) *eq.Pump {
	p := &eq.Pump{
		SolidsMm: given.SolidsMm, OutletBoreMm: given.OutletBoreMm, LabelFlowLPerH: given.LabelFlowLPerH, LabelHeadM: given.LabelHeadM,
	}
	if c.Power > 0 {
		w := tidied(c.Power.Watts())
		p.PowerW = &w
	}
	for _, point := range c.Points {
		q, h := tidied(point.Flow.LitresPerHour()), tidied(point.Head.Metres())
		made := &eq.CurvePoint{FlowLPerH: &q, HeadM: &h}
		if point.Power > 0 {
			w := tidied(point.Power.Watts())
			made.PowerW = &w
		}
		p.Curve = append(p.Curve, made)
	}
	return p
}

// tidied takes away the last bits that turning a number into another unit leaves behind: ten digits are more than anyone measures.
func tidied(x float64) float64 {
	if x == 0 {
		return 0
	}
	scale := math.Pow(10, 9-math.Floor(math.Log10(math.Abs(x))))
	if math.IsInf(scale, 0) || scale == 0 {
		return x
	}
	return math.Round(x*scale) / scale
}

// CurveReview turns the review of a catalogue into a message.
func CurveReview(r defect.Review) *pb.CurveReview {
	m := &pb.CurveReview{
		CurveCount: int32(r.Curves), SoundCount: int32(r.Sound), NoteCount: int32(r.Notes), CautionCount: int32(r.Cautions), StopCount: int32(r.Stops),
		Defects: defectCounts(r.Defects), EfficiencyPercent: distribution(r.Efficiency), SpecificSpeed: distribution(r.SpecificSpeed),
		Outliers: outliers(r.Outliers), Coverage: &pb.CurveCoverage{},
	}
	for _, d := range r.Coverage {
		m.Coverage.Duties = append(m.Coverage.Duties, &pb.CurveDuty{
			FlowLPerH: d.FlowLitresPerHour, HeadM: d.HeadMetres, PumpCount: int32(d.Pumps), Gap: d.Gap,
		})
	}
	return m
}

func defectCounts(counts map[string]int) []*pb.CurveDefectCount {
	var made []*pb.CurveDefectCount
	for _, code := range slices.SortedFunc(maps.Keys(counts), func(a, b string) int {
		return cmp.Or(cmp.Compare(counts[b], counts[a]), cmp.Compare(a, b))
	}) {
		made = append(made, &pb.CurveDefectCount{Code: code, CurveCount: int32(counts[code])})
	}
	return made
}

func outliers(all []defect.Outlier) []*pb.CurveOutlier {
	var made []*pb.CurveOutlier
	for _, o := range all {
		made = append(made, &pb.CurveOutlier{
			Place: int32(o.Place), ItemNumber: o.Number, Series: o.Series, Figure: o.Figure, Value: o.Value, Median: o.Median, Deviations: o.Deviations,
		})
	}
	return made
}

func distribution(d defect.Distribution) *pb.CurveDistribution {
	m := &pb.CurveDistribution{
		CurveCount: int32(d.Count), Least: d.Least, LowerQuartile: d.LowerQuartile, Median: d.Median, UpperQuartile: d.UpperQuartile, Greatest: d.Greatest,
	}
	for _, b := range d.Bins {
		m.Bins = append(m.Bins, &pb.CurveBin{From: b.From, Below: b.Below, CurveCount: int32(b.Count)})
	}
	return m
}
