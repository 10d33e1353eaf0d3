package service

import (
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A figures list is what a plan is known by.
type figures []*pb.PlanFigure

func (f *figures) number(figure, name, unit string, value float64, why string) {
	*f = append(*f, &pb.PlanFigure{Figure: figure, Name: name, Unit: unit, Is: &pb.PlanFigure_Number{Number: value}, Why: why})
}

// known is number for a value that may not be there.
func (f *figures) known(figure, name, unit string, value *float64, why string) {
	if value != nil {
		f.number(figure, name, unit, *value, why)
	}
}

func (f *figures) word(figure, name, value, why string) {
	if value != "" {
		*f = append(*f, &pb.PlanFigure{Figure: figure, Name: name, Is: &pb.PlanFigure_Word{Word: value}, Why: why})
	}
}

// planFigures are the figures of the parts that were asked for.
func planFigures(r *pb.PlanJobResponse) []*pb.PlanFigure {
	var f figures
	f.water(r.GetWater())
	f.quantities(r.GetQuantities())
	f.kit(r.GetKit())
	f.states(r.GetStates())
	f.filtration(r.GetFiltration())
	f.light(r.GetLight())
	f.rest(r)
	return f
}

func (f *figures) water(w *pb.PlannedWater) {
	if w == nil {
		return
	}
	pond := w.GetPond()
	f.number("water.volume_l", "volume", "L", pond.GetNetVolumeL(), "Doses, turnover and the lamp go by it.")
	f.number("water.surface_m2", "surface", "m²", pond.GetSurfaceM2(), "Evaporation, air and the fall of the level go by it.")
	f.number("water.mean_depth_m", "mean depth", "m", pond.GetMeanDepthM(), "Shallow water warms, cools and freezes faster.")
	depth := 0.0
	for _, b := range pond.GetBays() {
		depth = max(depth, b.GetDepthM())
	}
	f.number("water.depth_m", "greatest depth", "m", depth, "Fish winter in the deep.")
}

func (f *figures) quantities(q *pb.PlannedQuantities) {
	sums := map[string]float64{}
	for _, l := range q.GetLines() {
		sums[l.GetLine()] += l.GetQuantity()
	}
	for _, one := range []struct{ line, name, unit, why string }{
		{"lining", "lining to buy", "m²", "The dearest sheet of the job."},
		{"underlay", "underlay to buy", "m²", "It keeps stones off the lining."},
		{"dig", "ground to dig", "m³", "It sets the days of digging."},
		{"spoil", "spoil to cart, loose", "m³", "It sets the loads."},
		{"edging", "edge stones", "t", "They come on pallets and go by hand."},
		{"mortar_bags", "bags of mortar", "bags", "Water waits a week for it."},
	} {
		if sum, ok := sums[one.line]; ok {
			f.number("quantities."+one.line, one.name, one.unit, sum, one.why)
		}
	}
}

func (f *figures) kit(p *pb.PlannedKit) {
	k := p.GetKit()
	if k == nil {
		return
	}
	f.word("kit.pump", "pump", k.GetPump().GetItem().GetItemNumber(), "The flow comes from it.")
	f.word("kit.hose", "hose", k.GetHose().GetItem().GetItemNumber(), "A size too small takes half the flow.")
	f.word("kit.filter", "filter", k.GetFilter().GetItem().GetItemNumber(), "It carries the fish.")
	f.word("kit.lamp_unit", "lamp unit", k.GetLampUnit().GetItem().GetItemNumber(), "It holds green water back.")
	f.number("kit.flow_clean_l_per_h", "flow, clean", "L/h", flowIn(k, pb.RunningState_RUNNING_STATE_CLEAN), "The look of the fall.")
	f.number("kit.flow_due_l_per_h", "flow, filter due", "L/h", flowIn(k, pb.RunningState_RUNNING_STATE_DUE), "What filter and fish live on.")
	if d := dutyIn(k, pb.RunningState_RUNNING_STATE_CLEAN); d != nil {
		f.known("kit.power_w", "power of the pump", "W", d.PowerW, "Every hour of every day.")
		f.number("kit.head_m", "head", "m", d.GetHeadM().GetExpected(), "Lift and all that the water rubs along.")
	}
	f.number("kit.price", "price of the kit", k.GetCost().GetCurrency(), k.GetCost().GetPrice(), "Paid once.")
	f.number("kit.energy_kwh_per_year", "electricity a year", "kWh", k.GetCost().GetEnergyKwhPerYear(), "Paid every year.")
	f.number("kit.total", "price and running over the years", k.GetCost().GetCurrency(), k.GetCost().GetTotal(), "What it costs in the end.")
	f.number("kit.headroom_percent", "headroom to the tightest limit", "%", k.GetHeadroomPercent(), "What is left for a dirty cage or one more fish.")
}

func (f *figures) states(s *pb.PlannedStates) {
	if s == nil {
		return
	}
	all := s.GetStates()
	if w := all.GetWinter().GetSolution(); w != nil {
		f.number("states.winter_flow_l_per_h", "flow in winter", "L/h", w.GetFlowLPerH(), "Little is enough in winter, and the deep lies still.")
	}
	f.number("states.stop_rise_mm", "rise of the level when the pump stops", "mm", all.GetStopped().GetLevelRiseMm(), "It must stay under the rim.")
	f.known("states.start_drop_mm", "fall of the level when it starts", "mm", s.StartDropMm, "The pump must stay covered.")
	if flush := all.GetFlush(); flush != nil {
		f.known("states.flush_l", "water of a flush", "L", flush.LostL, "It is replaced by tap water.")
	}
	if off := all.GetHoseOff(); off != nil {
		f.known("states.hose_off_left_l", "water left if the hose comes off", "L", off.LeftL, "What the fish have then.")
	}
}

func (f *figures) filtration(p *pb.PlannedFiltration) {
	if fish := p.GetFish(); fish != nil {
		f.number("filtration.fish_now_kg", "fish today", "kg", fish.GetNow().GetMassKg(), "What is fed and breathes today.")
		f.number("filtration.fish_grown_kg", "fish grown", "kg", fish.GetGrown().GetMassKg(), "What the filter must carry.")
		f.number("filtration.tan_grown_g_per_day", "ammonia nitrogen of the grown fish", "g/day", fish.GetGrown().GetTanGPerDay(), "The load of the filter.")
	}
	if v := p.GetFilter().GetVerdict(); v != nil {
		f.number("filtration.capacity_tan_g_per_day", "what the filter carries", "g/day", v.GetCapacityTanGPerDay().GetExpected(), "It must be above the load.")
		f.number("filtration.headroom_percent", "headroom of the filter", "%", v.GetHeadroomPercent(), "What the filter carries above the load of the grown fish with the margin; below nothing the margin is used up.")
	}
	if r := p.GetRipening().GetExpected(); r != nil {
		f.known("filtration.ripe_day", "day the filter is ripe", "days", r.RipeDay, "No fish before.")
	}
	if o := p.GetOxygen(); o != nil {
		f.number("filtration.dawn_oxygen_mg_per_l", "least oxygen at dawn", "mg/L", o.GetDawn().GetLow(), "Fish gasp below 4 to 6.")
		f.number("filtration.dawn_oxygen_pump_off_mg_per_l", "the same, the pump off", "mg/L", o.GetDawnPumpOffMgPerL(), "Why it runs at night.")
	}
	if w := p.GetWinter(); w != nil {
		f.number("filtration.refuge_m", "depth left under the ice", "m", w.GetRefugeM(), "Where the fish winter.")
	}
}

func (f *figures) light(l *pb.PlannedLight) {
	if l == nil {
		return
	}
	f.number("light.daily_mj_per_cm2", "dose of a day, lamps at their end", "mJ/cm²", l.GetDose().GetAgedLamp().GetDailyMjPerCm2(), "What holds green water back.")
	f.word("light.clearing", "whether it clears a green pond", clearingWord(l.GetClearing().GetVerdict()), "No dose is known to be certain.")
	f.word("light.lamps_due", "day the lamps are due", l.GetSeason().GetDueDay(), "They glow on without doing anything.")
}

func clearingWord(v pb.ClearingVerdict) string {
	return map[pb.ClearingVerdict]string{
		pb.ClearingVerdict_CLEARING_VERDICT_UNLIKELY: "unlikely", pb.ClearingVerdict_CLEARING_VERDICT_POSSIBLE: "possible", pb.ClearingVerdict_CLEARING_VERDICT_LIKELY: "likely",
	}[v]
}

func (f *figures) rest(r *pb.PlanJobResponse) {
	if y := r.GetYear(); len(y.GetMonths()) > 0 {
		f.number("year.energy_kwh", "electricity of the year, by the months", "kWh", y.GetEnergyKwhPerYear(), "Paid every year.")
	}
	if s := r.GetYear().GetSeason(); s != nil {
		f.number("year.topped_up_l", "tap water of the year's top-ups", "L", s.GetTopUp().GetYearL(), "It is paid for, and brings chlorine.")
		f.word("year.warmest_day", "warmest day", s.GetWarmestDay(), "Air is least then.")
		f.number("year.dawn_oxygen_mg_per_l", "oxygen at dawn of the warmest night", "mg/L", s.GetWarmestNight().GetDawnMgPerL().GetLow(), "Fish gasp below 4 to 6.")
		f.word("year.winter_place", "day the pump goes to its winter place", s.GetWinterPlace().GetFirstDay(), "The deep lies still from then on.")
	}
	if fill := r.GetFill(); fill != nil {
		f.number("fill.hours", "time to fill it", "h", fill.GetFillH(), "Somebody stays with it.")
		f.number("fill.thiosulphate_g", "thiosulphate for the filling", "g", fill.GetThiosulphateG().GetExpected(), "Chlorine kills fish and filter.")
	}
	if c := r.GetCosts(); c != nil {
		f.number("costs.build", "cost to build, of what has a price", c.GetCurrency(), c.GetBuildTotal(), "Paid once.")
		f.number("costs.yearly", "cost of a year, of what has a price", c.GetCurrency(), c.GetYearlyTotal(), "Paid every year.")
	}
	if w := r.GetWork(); w != nil {
		f.number("work.hours", "work of all people", "h", w.GetWorkH(), "What is quoted for.")
		f.number("work.build_days", "days until it is built", "days", float64(w.GetBuildDays()), "How long the garden is a site.")
		f.number("work.until_stocked_days", "days until the last fish are in", "days", float64(w.GetUntilStockedDays()), "Patience.")
		f.word("work.last_day", "last day on site", w.GetLastDay(), "When the client has the garden back.")
	}
	if e := r.GetElectrics(); e != nil {
		f.number("electrics.power_w", "power of everything on the cable", "W", e.GetPowerW(), "For the electrician.")
		f.number("electrics.current_a", "its current", "A", e.GetCurrentA(), "For the electrician.")
		f.known("electrics.conductor_mm2", "least conductor that keeps the voltage", "mm²", e.ConductorMm2, "Too thin a cable starves the pump.")
	}
}
