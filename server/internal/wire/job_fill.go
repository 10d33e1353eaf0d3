package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/treat"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// usualTap is what an outside tap gives: common practice.
const usualTap = 12.0 // L/min

// TapFlow reads how fast the pond is filled.
func (n *Notes) TapFlow(w *pb.WaterSupply) unit.Flow {
	if w == nil {
		w = &pb.WaterSupply{}
	}
	return unit.LitresPerMinute(assumed(n, w.FlowLPerMin, usualTap, assume.Note("tap", "How much the tap gives", usualTap, "L/min", "time a bucket under it")))
}

// Filling reads the water a pond is filled with.
func (n *Notes) Filling(w *pb.WaterSupply, volume unit.Volume) treat.Filling {
	f := treat.Filling{Volume: volume, Chloramine: w.GetIsChloramine()}
	if w.GetIsRainOrWell() {
		n.note(finding.Finding{
			Code: "TEST_RAIN_OR_WELL_WATER", Severity: finding.Note, Subject: "water",
			Sentence: "Rain water has no carbonate hardness and well water may have iron, no oxygen or too much nitrate; neither has chlorine.",
			Change:   "test pH, carbonate hardness and metals before fish go in", Source: source.Practice,
		})
		return f
	}
	if w == nil {
		w = &pb.WaterSupply{}
	}
	f.Chlorine = assumed(n, optional(w.ChlorineMgPerL, unit.MilligramsPerLitre), treat.UsualChlorine,
		assume.Note("tap", "The chlorine of the tap water", treat.UsualChlorine.MilligramsPerLitre(), "mg/L", "test it, or ask the supplier, also whether it is chloramine"))
	return f
}

// Filled turns a filling into a message, without its findings.
func Filled(f treat.Filling, t treat.Treatment, takes unit.Time, salt unit.Mass) *pb.PlannedFill {
	made := &pb.PlannedFill{
		VolumeL: f.Volume.Litres(), FillH: takes.Hours(), ChlorineG: t.Chlorine.Grams(), TanLeftMgPerL: given(t.AmmoniaLeft.MilligramsPerLitre()),
		TenthChlorineMgPerL: t.Tenth.MilligramsPerLitre(), SaltTenthPercentKg: salt.Kilograms(),
	}
	if t.Dose > 0 {
		made.ThiosulphateG = &pb.Band{Low: t.Least.Grams(), Expected: t.Dose.Grams(), High: t.Dose.Grams()}
	}
	return made
}
