package winter

import (
	"fmt"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Input is a pond in a hard frost.
type Input struct {
	Pond         unit.Volume
	Surface      unit.Area
	Depth        unit.Length // at the deepest
	Stocking     filter.Stocking
	FreezingDays float64       // of the hardest spell to be expected, in °C days
	Loss         unit.HeatFlux // of the open water
	DeepPump     bool          // whether the pump stays at the deep end
}

// A Frost is what the spell does.
type Frost struct {
	Ice      unit.Length // in a garden, without snow
	IceMost  unit.Length // in the open
	Refuge   unit.Length // depth left under the thickest ice
	TopCold  unit.Time   // until the top layer has gone from 4 to 0 °C, the deep left still
	AllCold  unit.Time   // until the whole pond has, stirred
	Findings []finding.Finding
}

// topLayer cools first where nothing stirs.
const topLayer = unit.Length(0.3)

// Hold says what a frost does to the pond. Problems of the input are in err, an input.Errors.
func Hold(t *working.Trail, in Input) (Frost, error) {
	if err := check(in); err != nil {
		return Frost{}, err
	}
	f := Frost{
		Ice:     IceThickness.Run(t, IceInput{FreezingDays: in.FreezingDays, Cover: ShelteredIce}),
		IceMost: IceThickness.Run(t, IceInput{FreezingDays: in.FreezingDays, Cover: BareIce}),
	}
	f.Refuge = max(0, in.Depth-f.IceMost)
	top := min(in.Pond, unit.CubicMetres(topLayer.Metres()*in.Surface.SquareMetres()))
	f.TopCold = CoolingTime.Run(t, CoolingInput{Volume: top, Surface: in.Surface, Loss: in.Loss, Drop: 4})
	f.AllCold = CoolingTime.Run(t, CoolingInput{Volume: in.Pond, Surface: in.Surface, Loss: in.Loss, Drop: 4})
	f.Findings = verdicts(in, f)
	return f, nil
}

func check(in Input) error {
	var problems input.Errors
	between := func(field string, v, low, high float64, change string) {
		if !(v >= low && v <= high) {
			problems.Add(field, change, "%g", v)
		}
	}
	between("pond_volume_l", in.Pond.Litres(), 10, 1e9, "give the water in litres")
	between("surface_m2", in.Surface.SquareMetres(), 0.05, 1e6, "give the open water in square metres")
	between("depth_m", in.Depth.Metres(), 0.05, 20, "give the greatest depth")
	between("freezing_degree_days", in.FreezingDays, 0, 3000, "add up the daily mean temperatures below 0 °C of the hardest spell")
	between("heat_loss_w_per_m2", in.Loss.WattsPerSquareMetre(), 1, 1000, "give 80 for a cold day, 150 for a clear frosty night")
	return problems.Err()
}

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
	return found
}

var iceCaution = finding.Finding{
	Code: "ICE", Severity: finding.Caution, Subject: "pond",
	Sentence: "The pond freezes over. Ice on a garden pond bears nobody, and gases must be able to leave.",
	Change:   "Keep children off, keep a hole open with a float heater or moving air, and do not hammer on the ice. Mains near water is for a licensed electrician.", Source: source.Practice,
}
