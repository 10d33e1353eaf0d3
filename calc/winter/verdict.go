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
	if least, _, src := RefugePractice(in.Stocking); f.Refuge < least {
		found = append(found, finding.Finding{
			Code: "REFUGE_SHALLOW", Severity: finding.Caution, Subject: "fish",
			Sentence: fmt.Sprintf("Under the thickest ice %.2f m of water is left; %s are wintered in at least %.1f m.", f.Refuge.Metres(), in.Stocking, least.Metres()),
			Value:    finding.Of(f.Refuge.Metres(), "m"), Limit: finding.Of(least.Metres(), "m"),
			Change: "Dig deeper, cover the pond, or winter the fish elsewhere.", Source: src,
		})
	}
	if in.DeepPump && in.Stocking != filter.NoFish {
		found = append(found, finding.Finding{
			Code: "DEEP_WATER_STIRRED", Severity: finding.Caution, Subject: "pump",
			Sentence: fmt.Sprintf("A pump at the deep end cools the whole pond to 0 °C in about %.1f days of such frost; left still, the deep stays near 4 °C.", f.AllCold.Days()),
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
			Sentence: fmt.Sprintf("A filter that stands still goes foul within a day. Keep %.0f to %.0f L/h through it, or empty and clean it for the winter.", f.FlowLeast.LitresPerHour(), f.FlowMost.LitresPerHour()),
			Value:    finding.Of(f.FlowLeast.LitresPerHour(), "L/h"),
			Change:   "Never switch a filter on again after days without flow before it is cleaned.", Source: source.Practice,
		})
	}
	return found
}

var iceCaution = finding.Finding{
	Code: "ICE", Severity: finding.Caution, Subject: "pond",
	Sentence: "The pond freezes over. Ice on a garden pond bears nobody, and gases must be able to leave.",
	Change:   "Keep children off, keep a hole open with a float heater or moving air, and do not hammer on the ice. Mains near water is for a licensed electrician.", Source: source.Practice,
}
