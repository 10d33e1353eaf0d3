package winter

import (
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
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
	Flow         unit.Flow     // through the filter in summer; 0 where it is not known
	FallFlow     unit.Flow     // over falls that run on; 0 without
}

// A Frost is what the spell does.
type Frost struct {
	Ice     unit.Length // in a garden, without snow
	IceMost unit.Length // in the open
	Refuge  unit.Length // depth left under the thickest ice
	TopCold unit.Time   // until the top layer has gone from 4 to 0 °C, the deep left still
	AllCold unit.Time   // until the whole pond has, stirred
	// Flow that keeps the filter alive by habit of the trade; nothing where the flow of summer is not known.
	FlowLeast, FlowMost unit.Flow
	FallHeat            unit.Power // carried off by the falls for each °C they cool
	Findings            []finding.Finding
}

// ColdDay is what open water loses on a cold day; a clear frosty night takes about 150 W/m². It is an assumption.
const ColdDay = unit.HeatFlux(80)

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
	f.FlowLeast, f.FlowMost, _ = WinterFlowPractice(in.Flow)
	if in.FallFlow > 0 {
		f.FallHeat = FallHeat.Run(t, FallHeatInput{Flow: in.FallFlow, Drop: 1})
	}
	f.Findings = verdicts(in, f)
	return f, nil
}

func check(in Input) error {
	var problems input.Errors
	problems.Between("pond_volume_l", in.Pond.Litres(), 10, 1e9, "give the water in litres")
	problems.Between("surface_m2", in.Surface.SquareMetres(), 0.05, 1e6, "give the open water in square metres")
	problems.Between("depth_m", in.Depth.Metres(), 0.05, 20, "give the greatest depth")
	problems.Between("freezing_degree_days", in.FreezingDays, 0, 3000, "add up the daily mean temperatures below 0 °C of the hardest spell")
	problems.Between("heat_loss_w_per_m2", in.Loss.WattsPerSquareMetre(), 1, 1000, "give 80 for a cold day, 150 for a clear frosty night")
	problems.Between("flow_l_per_h", in.Flow.LitresPerHour(), 0, 1e8, "give the flow through the filter in summer, or nothing")
	problems.Between("fall_flow_l_per_h", in.FallFlow.LitresPerHour(), 0, 1e8, "give the flow over falls that run on, or nothing")
	return problems.Err()
}
