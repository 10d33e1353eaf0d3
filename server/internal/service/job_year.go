package service

import (
	"math"
	"time"

	"example.com/pondwright/calc/calendar"
	"example.com/pondwright/calc/electric"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/handover"
	"example.com/pondwright/calc/site"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/treat"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/work"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// lampFrom is the water temperature a lamp burns above where no weather says when algae grow: common practice.
const lampFrom = 10.0 // °C

// year follows the pond through a year of the site's weather, or adds the energy of the months up by their water temperatures alone.
func (p *jobPlan) year() error {
	k, err := p.theKit()
	if err != nil {
		return err
	}
	if p.job.GetClimate().GetSite() != nil {
		return p.season(k)
	}
	made := &pb.PlannedYear{}
	p.made.Year = made
	months := p.job.GetClimate().GetWaterTemperaturesC()
	if len(months) != 12 {
		made.Findings = wire.Findings([]finding.Finding{noTemperatures()})
		return nil
	}
	pump := dutyIn(k, pb.RunningState_RUNNING_STATE_CLEAN).GetPowerW() + fallPumpPower(k)
	lamp := k.GetLampUnit().GetItem().GetLampUnit().GetPowerW()
	price := p.energyPrice()
	for i, t := range months {
		days := time.Date(2027, time.Month(i+2), 0, 0, 0, 0, 0, time.UTC).Day()
		power := unit.Watts(pump)
		if t >= lampFrom {
			power += unit.Watts(lamp)
		}
		energy := power.Over(p.runsDaily() * unit.Time(days)).KilowattHours()
		m := &pb.YearMonth{Month: int32(i + 1), WaterTemperatureC: t, EnergyKwh: energy}
		made.EnergyKwhPerYear += energy
		if price != nil {
			m.EnergyCost = new(energy * *price)
			made.EnergyCostPerYear = new(made.GetEnergyCostPerYear() + *m.EnergyCost)
		}
		made.Months = append(made.Months, m)
	}
	return nil
}

// season asks SeasonService for the first whole year after the work begins.
func (p *jobPlan) season(k *pb.Kit) error {
	resp, err := seasons{engine: p.engine}.SimulateYear(p.ctx, p.seasonRequest(k))
	if err := p.part("year", resp, err); err != nil || resp == nil {
		return err
	}
	made := &pb.PlannedYear{Season: resp, EnergyKwhPerYear: resp.GetEnergy().GetYearKwh(), EnergyCostPerYear: resp.GetEnergy().YearCost}
	for _, m := range resp.GetMonths() {
		made.Months = append(made.Months, &pb.YearMonth{Month: m.GetMonth(), WaterTemperatureC: m.GetWaterC(), EnergyKwh: m.GetEnergyKwh(), EnergyCost: m.EnergyCost})
	}
	if said := p.job.GetClimate().GetWaterTemperaturesC(); len(said) == 12 {
		made.Findings = wire.Findings([]finding.Finding{{
			Code: "TWO_WATER_TEMPERATURES", Severity: finding.Note, Subject: "climate",
			Sentence: "Water temperatures were given and the weather of the site as well: the year is followed by the weather, and what hangs on the months alone goes by the temperatures that were given.",
			Change:   "leave one of them out", Source: source.Asked,
		}})
	}
	p.made.Year = made
	return nil
}

func (p *jobPlan) seasonRequest(k *pb.Kit) *pb.SimulateYearRequest {
	b, c := p.job.GetBrief(), p.job.GetClimate()
	req := &pb.SimulateYearRequest{
		Climate: c.GetSite(), Pond: &pb.SeasonPond{Water: &pb.SeasonPond_Pond{Pond: b.GetPond()}}, FirstDay: new(time.Date(p.firstYear(), time.January, 1, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)),
		Stock: b.GetStock(), Filter: k.GetFilter().GetItem().GetFilter(), Tap: p.job.GetSupply().GetTap(), FallsRestInWinter: wire.WinterRouteOf(p.job) != nil, Workings: p.req.GetWorkings(),
		Falls: p.oxygenFalls(fallFlow(k, pb.RunningState_RUNNING_STATE_DUE)), Loads: p.seasonLoads(k),
	}
	if w := b.GetWater(); w != nil {
		req.Ph = w.Ph
	}
	if price := p.energyPrice(); price != nil {
		req.Tariff = []*pb.TariffBand{{Name: "day and night", PricePerKwh: *price}}
	}
	return req
}

// seasonLoads are what hangs on the cable, and when. What runs for some hours of the day is taken to run from the morning on: its energy
// does not hang on it.
func (p *jobPlan) seasonLoads(k *pb.Kit) []*pb.ElectricLoad {
	load := func(name string, power, hours float64, when pb.LoadSeason) *pb.ElectricLoad {
		made := &pb.ElectricLoad{Name: name, PowerW: power, Season: when}
		const morning, day = 8, 24
		if hours < day {
			made.FromH, made.ToH = new(float64(morning)), new(math.Mod(morning+hours, day))
		}
		return made
	}
	var made []*pb.ElectricLoad
	daily := p.runsDaily().Hours()
	if k != nil {
		made = append(made, load("pump", dutyIn(k, pb.RunningState_RUNNING_STATE_CLEAN).GetPowerW(), daily, pb.LoadSeason_LOAD_SEASON_ALL_YEAR))
		made[0].WarmsPond = true
	}
	if second := fallPumpPower(k); second > 0 {
		made = append(made, load("pump of the fall", second, daily, pb.LoadSeason_LOAD_SEASON_ALL_YEAR))
	}
	if lamp := k.GetLampUnit().GetItem().GetLampUnit(); lamp != nil {
		made = append(made, load("lamp unit", lamp.GetPowerW(), daily, pb.LoadSeason_LOAD_SEASON_LAMP))
	}
	const most = 20
	for _, o := range p.job.GetElectrics().GetOthers() {
		hours := 24.0
		if o.HoursPerDay != nil {
			hours = o.GetHoursPerDay()
		}
		if hours > 0 && len(made) < most {
			made = append(made, load(o.GetName(), o.GetPowerW(), hours, pb.LoadSeason_LOAD_SEASON_ALL_YEAR))
		}
	}
	return made
}

// fallPumpPower is what a second pump takes that has the fall to itself; two side by side are told as one.
func fallPumpPower(k *pb.Kit) float64 {
	return dutyIn(&pb.Kit{States: k.GetSecondPump().GetStates()}, pb.RunningState_RUNNING_STATE_CLEAN).GetPowerW()
}

func noTemperatures() finding.Finding {
	return finding.Finding{
		Code: "NO_WATER_TEMPERATURES", Severity: finding.Note, Subject: "climate",
		Sentence: "Neither the weather of the site nor water temperatures were given: nothing is dated by the water, and neither cleaning nor the energy of the months is told.",
		Change:   "name a climate in climate.site, or give climate.water_temperatures_c, January first, all twelve",
	}
}

func (p *jobPlan) energyPrice() *float64 {
	if r := p.job.GetBrief().GetRunning(); r != nil {
		return r.EnergyPricePerKwh
	}
	return nil
}

func (p *jobPlan) trail() *working.Trail { return trail(p.req.GetWorkings()) }

// record keeps what a trail has.
func (p *jobPlan) record(part string, t *working.Trail) {
	for _, s := range wire.Workings(t) {
		if s.Subject == "" {
			s.Subject = part
		} else {
			s.Subject = part + ": " + s.Subject
		}
		p.steps = append(p.steps, s)
	}
}

// fill fills the pond and makes its water safe.
func (p *jobPlan) fill() error {
	if err := p.need(pb.PlanPart_PLAN_PART_WATER); err != nil || p.made.Water == nil {
		return err
	}
	t := p.trail()
	var notes wire.Notes
	supply := p.job.GetSupply()
	filling := notes.Filling(supply, unit.Litres(p.made.Water.GetPond().GetNetVolumeL()))
	takes := handover.BucketTime.Run(t, handover.BucketInput{Vessel: filling.Volume, Flow: notes.TapFlow(supply)})
	treated := filling.Of(t)
	const tenthPercent = 1.0 // g/L
	t.About("salt")
	salt := treat.MassInWater.Run(t, treat.MassInput{Volume: filling.Volume, Concentration: unit.KilogramsPerCubicMetre(tenthPercent)})
	made := wire.Filled(filling, treated, takes, salt)
	if supply != nil && supply.PricePerM3 != nil && !supply.GetIsRainOrWell() {
		made.WaterCost = new(filling.Volume.CubicMetres() * supply.GetPricePerM3())
	}
	notes.Add(treated.Findings...)
	made.Findings = wire.Findings(notes.Findings)
	p.record("fill", t)
	p.made.Fill = made
	return nil
}

// work puts the tasks in order.
func (p *jobPlan) work() error {
	if err := p.need(pb.PlanPart_PLAN_PART_QUANTITIES, pb.PlanPart_PLAN_PART_FILL, pb.PlanPart_PLAN_PART_YEAR); err != nil || p.made.Quantities == nil || p.made.Fill == nil {
		return err
	}
	t := p.trail()
	var notes wire.Notes
	first, known, err := wire.StartDay(p.job.GetWork())
	if err != nil {
		return p.faults.add(err, placing{"": "work"}.at)
	}
	j := p.quantified(&notes)
	extra, err := wire.ExtraTasks(p.job.GetWork(), p.hasTask)
	if err != nil {
		return p.faults.add(err, placing{"": "work"}.at)
	}
	j.Extra = extra
	planned, err := work.Schedule(t, work.Tasks(t, j), notes.Team(p.job.GetWork(), first, known), stopper(p.ctx))
	if err != nil {
		return p.faults.add(err, placing{"": "work"}.at)
	}
	made := &pb.PlannedWork{Tasks: wire.Tasks(planned, first, known)}
	for i, task := range planned {
		made.WorkH += task.Labour.Hours()
		m := made.Tasks[i]
		made.UntilStockedDays = max(made.UntilStockedDays, m.GetLastDayNumber())
		if onSite(task) {
			made.BuildDays = max(made.BuildDays, m.GetLastDayNumber())
		}
	}
	made.FirstDay, made.LastDay = wire.DayOn(first, known, 1), wire.DayOn(first, known, int(made.BuildDays))
	made.StockedDay = wire.DayOn(first, known, int(made.UntilStockedDays))
	mortar := j.Edge > 0 || j.Sills > 0
	notes.Add(work.Weather(mortar, known && p.coldIn(first.Month()))...)
	made.Findings = wire.Findings(notes.Findings)
	p.record("work", t)
	p.made.Work = made
	return nil
}

// onSite reports whether somebody is at work on site: not the waiting for the filter and what comes after it.
func onSite(t work.Planned) bool {
	return t.Labour > 0 && t.ID != "plant" && (len(t.ID) < 6 || t.ID[:6] != "stock_")
}

// coldWater is what the water is below in months in which mortar may freeze: an engineering choice.
const coldWater = 6.0 // °C

// coldIn reports whether a month, or the next, is known to be cold.
func (p *jobPlan) coldIn(m time.Month) bool {
	months := p.monthly()
	return len(months) == 12 && min(months[int(m)-1], months[int(m)%12]) < coldWater
}

// quantified is the job with its quantities.
func (p *jobPlan) quantified(notes *wire.Notes) work.Job {
	q, j, w := p.made.Quantities, p.sketch(), p.job.GetWork()
	dug := q.GetDig()
	j.Dug = unit.CubicMetres(dug.GetTotalM3())
	j.Digger = notes.Digger(w, dug.GetTotalM3())
	if j.Turf > 0 {
		j.Turf = unit.SquareMetres(dug.GetTurfM2())
	}
	j.Covered = 0
	for _, l := range q.GetLinings() {
		j.Covered += unit.SquareMetres(l.GetLining().GetCoveredM2())
	}
	edge := q.GetStone().GetEdging()
	j.Edge = unit.Metres(edge.GetEdgeM())
	j.Stone = unit.Kilograms(1000 * max(0, q.GetStone().GetTotalMassT()-edge.GetMassT()))
	if j.Cable > 0 {
		j.Cable = unit.Metres(p.job.GetElectrics().GetCableM())
	}
	j.FillTime = unit.Hours(p.made.Fill.GetFillH())
	j.Chlorine = p.made.Fill.GetChlorineG() > 0
	if w != nil && w.StoneTPerH != nil {
		j.StonePerHour = unit.Kilograms(1000 * w.GetStoneTPerH())
	}
	if w != nil && w.MortarCureDays != nil {
		j.Cure = unit.Days(w.GetMortarCureDays())
	}
	return j
}

// electrics makes the load list.
func (p *jobPlan) electrics() error {
	k, err := p.theKit()
	if err != nil {
		return err
	}
	t := p.trail()
	var notes wire.Notes
	var own []wire.LoadItem
	fish := len(p.job.GetBrief().GetStock().GetGroups()) > 0
	if k != nil {
		if duty := dutyIn(k, pb.RunningState_RUNNING_STATE_CLEAN); duty.GetPowerW() == 0 {
			notes.Add(finding.Finding{
				Code: "PUMP_POWER_NOT_KNOWN", Severity: finding.Caution, Subject: "pump", Sentence: "The catalogue gives no power of the pump: it is counted as nothing in the load list.",
				Change: "read it off the label", Source: source.Stated,
			})
		}
		own = append(own, wire.LoadItem{
			Load: electric.Load{Name: "pump", Power: unit.Watts(dutyIn(k, pb.RunningState_RUNNING_STATE_CLEAN).GetPowerW())}, Daily: p.runsDaily(), Vital: fish,
		})
		if second := fallPumpPower(k); second > 0 {
			own = append(own, wire.LoadItem{Load: electric.Load{Name: "pump of the fall", Power: unit.Watts(second)}, Daily: p.runsDaily()})
		}
		if lamp := k.GetLampUnit().GetItem().GetLampUnit(); lamp != nil {
			own = append(own, wire.LoadItem{Load: electric.Load{Name: "lamp unit", Power: unit.Watts(lamp.GetPowerW())}, Daily: p.runsDaily()})
		}
	}
	supply, items := notes.Supply(p.job.GetElectrics(), own)
	assessed, err := electric.Assess(t, supply)
	if err != nil {
		return p.faults.add(err, placing{"": "electrics", "loads": "electrics.others"}.at)
	}
	made := wire.Electrics(supply, items, assessed)
	if supply.Length == 0 {
		notes.Add(finding.Finding{
			Code: "NO_CABLE_LENGTH", Severity: finding.Note, Subject: "cable", Sentence: "How long the cable is was not given; nothing is said of what it loses.",
			Change: "pace it from the board to the pond",
		})
	}
	notes.Add(assessed.Findings...)
	notes.Add(electric.Cautions(wire.WiringRegion(p.job.GetElectrics()))...)
	made.Findings = wire.Findings(notes.Findings)
	p.record("electrics", t)
	p.made.Electrics = made
	return nil
}

// calendar is the first year, by the water.
func (p *jobPlan) calendar() error {
	k, err := p.theKit()
	if err != nil {
		return err
	}
	if err := p.need(pb.PlanPart_PLAN_PART_YEAR); err != nil {
		return err
	}
	t := p.trail()
	kept := p.kept(k)
	entries := calendar.Year(t, calendar.Jobs(calendar.Owner{
		Fish: kept.Fish, Filter: kept.Filter, Lamp: kept.Lamp, Pump: kept.Pump, Fall: kept.Fall, WinterRoute: kept.Winter,
	}), wire.MonthTemperatures(p.monthly()))
	made := &pb.PlannedCalendar{Entries: wire.Entries(entries), Dated: len(p.monthly()) == 12}
	switch {
	case !made.Dated:
		made.Findings = wire.Findings([]finding.Finding{noTemperatures()})
	case p.made.GetYear().GetSeason() != nil:
		wire.DateBySeason(made.Entries, p.made.GetYear().GetSeason())
		made.Findings = wire.Findings([]finding.Finding{{
			Code: "DATED_BY_THE_YEAR", Severity: finding.Note, Subject: "calendar",
			Sentence: "Feeding, lamp and the place of the pump are dated as the year was followed day by day, and the rest by the means of its months.",
			Change:   "go by the thermometer: years differ by weeks", Source: source.Choice,
		}})
	}
	p.record("calendar", t)
	p.made.Calendar = made
	return nil
}

// kept is what there is to look after.
func (p *jobPlan) kept(k *pb.Kit) handover.Kept {
	b := p.job.GetBrief()
	return handover.Kept{
		Fish: len(b.GetStock().GetGroups()) > 0, Filter: k.GetFilter() != nil, Lamp: k.GetLampUnit() != nil, Pump: k != nil,
		Fall: b.GetFall() != nil, Winter: wire.WinterRouteOf(p.job) != nil, Flush: p.flushes(k),
	}
}

// flushes reports whether dirty water leaves the pond.
func (p *jobPlan) flushes(k *pb.Kit) bool {
	return p.job.GetFlush() != nil || k.GetFilter().GetItem().GetFilter().GetFlushL() > 0
}

// diggerWidths are how wide a machine is: common practice.
var diggerWidths = map[pb.DigMethod]unit.Length{
	pb.DigMethod_DIG_METHOD_MICRO_DIGGER: unit.Metres(0.75), pb.DigMethod_DIG_METHOD_MINI_DIGGER: unit.Metres(1.5),
}

// cautions are what can hurt somebody or break a rule on this job.
func (p *jobPlan) cautions() error {
	if err := p.need(pb.PlanPart_PLAN_PART_WATER, pb.PlanPart_PLAN_PART_KIT); err != nil || p.made.Water == nil {
		return err
	}
	k := p.made.GetKit().GetKit()
	s := p.job.GetSite()
	j := site.Job{
		Volume: unit.Litres(p.made.Water.GetPond().GetVolumeL()), Raised: unit.Metres(s.GetRaisedM()),
		Mortar: p.job.GetEdging().GetBedM() > 0 || p.job.GetBrief().GetFall() != nil, Flush: p.flushes(k), Chlorine: !p.job.GetSupply().GetIsRainOrWell(),
		Carted: p.carted(), Fish: len(p.job.GetBrief().GetStock().GetGroups()) > 0, GateWidth: unit.Metres(s.GetGateWidthM()),
		Machine: diggerWidths[p.job.GetWork().GetDigMethod()],
	}
	for _, bay := range p.made.Water.GetPond().GetBays() {
		j.Depth = max(j.Depth, unit.Metres(bay.GetDepthM()))
	}
	if s != nil {
		j.Children = s.Children
	}
	found := site.Cautions(j)
	found = merged(found, electric.Cautions(wire.WiringRegion(p.job.GetElectrics())))
	if k.GetLampUnit() != nil {
		found = merged(found, lampCautions())
	}
	found = merged(found, treat.Labels(p.volumeUncertainty()))
	p.made.Cautions = wire.Findings(found)
	return nil
}
