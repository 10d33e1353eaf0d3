package winter

import (
	"fmt"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
)

func verdicts(in Input, f Frost) []finding.Finding {
	var found []finding.Finding
	if f.IceMost > 0 {
		found = append(found, iceCaution)
	}
	if f := refugeVerdict(in, f); f != nil {
		found = append(found, *f)
	}
	if in.DeepPump && in.Stocking != filter.NoFish {
		found = append(found, finding.Finding{
			Code: "DEEP_WATER_STIRRED", Severity: finding.Caution, Subject: "pump",
			Sentence: fmt.Sprintf("A pump at the deep end cools the whole pond to 0 °C in about %s days in which it loses %.0f W/m²; left still, the deep stays near 4 °C.", finding.Figures(f.AllCold.Days()), in.Loss.WattsPerSquareMetre()),
			Value:    finding.Of(f.AllCold.Days(), "days"),
			Change:   "In winter move the pump up beside the return and keep a gentle flow, or stop it and drain the pipes.", Source: source.WaterHeat,
		})
	}
	if in.FallFlow > 0 && in.FreezingDays > 0 {
		found = append(found, finding.Finding{
			Code: "FALL_COOLS_POND", Severity: finding.Caution, Subject: "fall",
			Sentence: fmt.Sprintf("A fall that runs through frost carries off up to %.1f kW for each degree it cools, and ice can lead its water out of the pond.", f.FallHeat.Watts()/1000),
			Value:    finding.Of(f.FallHeat.Watts(), "W/K"),
			Change:   "Lead the water back below the surface in winter.", Source: source.WaterHeat,
		})
	}
	if in.Flow > 0 {
		found = append(found, finding.Finding{
			Code: "WINTER_FLOW", Severity: finding.Note, Subject: "filter",
			Sentence: fmt.Sprintf("A filter that stands still goes foul within a day. Keep %s to %s L/h through it, or empty and clean it for the winter.", finding.Whole(f.FlowLeast.LitresPerHour()), finding.Whole(f.FlowMost.LitresPerHour())),
			Value:    finding.Of(f.FlowLeast.LitresPerHour(), "L/h"),
			Change:   "Never switch a filter on again after days without flow before it is cleaned.", Source: source.Practice,
		})
	}
	return found
}

// refugeVerdict holds what is left under the ice against what fish are wintered in.
func refugeVerdict(in Input, f Frost) *finding.Finding {
	least, _, src := RefugePractice(in.Stocking)
	if f.Refuge >= least {
		return nil
	}
	shallow := finding.Finding{
		Code: "REFUGE_SHALLOW", Severity: finding.Caution, Subject: "fish",
		Sentence: fmt.Sprintf("Under the thickest ice %.2f m of water is left; %s are wintered in at least %.1f m.", f.Refuge.Metres(), in.Stocking, least.Metres()),
		Value:    finding.Of(f.Refuge.Metres(), "m"), Limit: finding.Of(least.Metres(), "m"),
		Change: "Dig deeper, cover the pond, or winter the fish elsewhere.", Source: src,
	}
	if f.Refuge == 0 {
		shallow.Severity = finding.Stop
		shallow.Sentence = fmt.Sprintf("The pond may freeze to the bottom: no water is left under the thickest ice, and %s are wintered in at least %.1f m.", in.Stocking, least.Metres())
	}
	return &shallow
}

// FrostNotGiven is the finding that nobody said how hard it freezes.
func FrostNotGiven() finding.Finding {
	return finding.Finding{
		Code: "FROST_NOT_GIVEN", Severity: finding.Caution, Subject: "pond",
		Sentence: "No frost was given, so no ice is counted and the whole depth stands as refuge.",
		Change:   "Add up the daily mean air temperatures below 0 °C of the hardest spell to be expected; give 0 where it never freezes.", Source: source.Choice,
	}
}

var iceCaution = finding.Finding{
	Code: "ICE", Severity: finding.Caution, Subject: "pond",
	Sentence: "The pond freezes over. Ice on a garden pond bears nobody, and gases must be able to leave.",
	Change:   "Keep children off, keep a hole open with a float heater or with air that moves near the surface, and do not hammer on the ice. Mains near water is for a licensed electrician.", Source: source.Practice,
}
