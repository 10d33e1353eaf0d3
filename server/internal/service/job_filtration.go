package service

import (
	"fmt"
	"math"
	"time"

	"google.golang.org/protobuf/proto"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/calendar"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// filtration asks what the fish do to the water, and what filter and air do about it.
func (p *jobPlan) filtration() error {
	b := p.job.GetBrief()
	if err := p.need(pb.PlanPart_PLAN_PART_WATER, pb.PlanPart_PLAN_PART_YEAR); err != nil || p.made.Water == nil {
		return err
	}
	pond := p.made.Water.GetPond()
	made := &pb.PlannedFiltration{}
	p.made.Filtration = made
	k, err := p.theKit()
	if err != nil {
		return err
	}
	f := filtration{engine: p.engine}
	if len(b.GetStock().GetGroups()) > 0 {
		if err := p.fish(f, made, pond, k); err != nil {
			return err
		}
	}
	return p.winterOf(f, made, pond, k)
}

// fish asks all that hangs on them.
func (p *jobPlan) fish(f filtration, made *pb.PlannedFiltration, pond *pb.PondMeasures, k *pb.Kit) error {
	b := p.job.GetBrief()
	volume, surface := pond.GetNetVolumeL(), pond.GetSurfaceM2()
	var err error
	made.Fish, err = f.CalculateFishLoad(p.ctx, &pb.CalculateFishLoadRequest{
		Stock: b.GetStock(), Water: b.GetWater(), VolumeL: &volume, SurfaceM2: &surface, Years: new(int32(5)), Workings: p.req.GetWorkings(),
	})
	if err := p.part("fish", made.Fish, err); err != nil {
		return err
	}
	if filter := k.GetFilter().GetItem().GetFilter(); filter != nil {
		flow := flowIn(k, pb.RunningState_RUNNING_STATE_DUE)
		made.Filter, err = f.AssessFilter(p.ctx, &pb.AssessFilterRequest{
			Filter: filter, Stock: b.GetStock(), Water: judgedWater(b.GetWater()), FlowLPerH: flow, MarginPercent: marginOf(b), PondVolumeL: &volume, Workings: p.req.GetWorkings(),
		})
		if err := p.part("filter", made.Filter, err); err != nil {
			return err
		}
		made.Balance, err = f.BalanceWater(p.ctx, &pb.BalanceWaterRequest{
			Filter: filter, Stock: b.GetStock(), Water: judgedWater(b.GetWater()), PondVolumeL: volume, FlowLPerH: flow, Tap: p.job.GetSupply().GetTap(), Workings: p.req.GetWorkings(),
		})
		if err := p.part("balance", made.Balance, err); err != nil {
			return err
		}
		if months := p.monthly(); len(months) == 12 {
			made.Cleaning, err = f.PlanCleaning(p.ctx, &pb.PlanCleaningRequest{
				Filter: filter, Stock: b.GetStock(), PondVolumeL: volume, WaterTemperaturesC: months, Workings: p.req.GetWorkings(),
			})
			if err := p.part("cleaning", made.Cleaning, err); err != nil {
				return err
			}
		}
	}
	return p.ripenAndBreathe(f, made, pond, k)
}

// part takes an answer over, or its faults, named from the brief on.
func (p *jobPlan) part(name string, m proto.Message, err error) error {
	if err != nil {
		return p.faults.add(err, placing{
			"": "brief", "tap": "supply.tap", "water_temperatures_c": "climate.water_temperatures_c", "freezing_degree_days": "climate.freezing_degree_days",
			"altitude_m": "climate.altitude_m", "climate": "climate.site", "flow_l_per_h": "brief.delivery", "pond_volume_l": "brief.pond", "surface_m2": "brief.pond", "depth_m": "brief.pond",
			"load": "brief.stock", "falls": "brief.fall", "filter": "kit.filter", "lamp_unit": "kit.lamp_unit",
		}.at)
	}
	p.take(name, m)
	return nil
}

func (p *jobPlan) ripenAndBreathe(f filtration, made *pb.PlannedFiltration, pond *pb.PondMeasures, k *pb.Kit) error {
	b := p.job.GetBrief()
	var err error
	if now := stockNow(b.GetStock()); now != nil {
		made.Ripening, err = f.RipenFilter(p.ctx, &pb.RipenFilterRequest{
			PondVolumeL: pond.GetNetVolumeL(), Water: b.GetWater(), Load: []*pb.LoadStep{{Load: &pb.LoadStep_Stock{Stock: now}}},
			Tap: p.job.GetSupply().GetTap(), Workings: p.req.GetWorkings(),
		})
		if err := p.part("ripening", made.Ripening, err); err != nil {
			return err
		}
	}
	oxygen := &pb.BalanceOxygenRequest{
		PondVolumeL: pond.GetNetVolumeL(), SurfaceM2: pond.GetSurfaceM2(), Stock: b.GetStock(), Workings: p.req.GetWorkings(),
	}
	if c := p.job.GetClimate(); c != nil {
		oxygen.AltitudeM = c.AltitudeM
	}
	if months := p.monthly(); len(months) == 12 {
		oxygen.WaterTemperatureC = new(warmest(months))
	}
	oxygen.Falls = p.oxygenFalls(fallFlow(k, pb.RunningState_RUNNING_STATE_DUE))
	made.Oxygen, err = f.BalanceOxygen(p.ctx, oxygen)
	if err := p.part("oxygen", made.Oxygen, err); err != nil {
		return err
	}
	made.Stocking = p.stockingPlan(made)
	return nil
}

// hotNight is what a warm night adds to the warmest month's mean: an engineering choice.
const hotNight = 3.0 // K

func warmest(months []float64) float64 {
	most := months[0]
	for _, m := range months {
		most = max(most, m)
	}
	return min(most+hotNight, 35)
}

// oxygenFalls are the falls of the job as air is counted over them.
func (p *jobPlan) oxygenFalls(flow float64) []*pb.OxygenFall {
	f := p.job.GetBrief().GetFall()
	if f == nil || flow < 1 {
		return nil
	}
	const least, most = 0.1, 3.0 // m, that air is counted for
	var made []*pb.OxygenFall
	for _, s := range p.job.GetFallBuild().GetSteps() {
		if s.GetDropM() >= least && s.GetDropM() <= most {
			made = append(made, &pb.OxygenFall{DropM: s.GetDropM(), FlowLPerH: flow})
		}
	}
	if len(p.job.GetFallBuild().GetSteps()) == 0 && f.GetHeightM() >= least && f.GetHeightM() <= most {
		made = append(made, &pb.OxygenFall{DropM: f.GetHeightM(), FlowLPerH: flow})
	}
	return made[:min(len(made), 10)]
}

// winterOf asks what the winter does.
func (p *jobPlan) winterOf(f filtration, made *pb.PlannedFiltration, pond *pb.PondMeasures, k *pb.Kit) error {
	b, c := p.job.GetBrief(), p.job.GetClimate()
	deepest := 0.0
	for _, bay := range pond.GetBays() {
		deepest = max(deepest, bay.GetDepthM())
	}
	req := &pb.PlanWinterRequest{
		PondVolumeL: pond.GetNetVolumeL(), SurfaceM2: pond.GetSurfaceM2(), DepthM: deepest, Stock: b.GetStock(), DeepPump: wire.WinterRouteOf(p.job) == nil,
		WaterTemperaturesC: p.monthly(), Workings: p.req.GetWorkings(),
	}
	if c != nil {
		req.FreezingDegreeDays = c.FreezingDegreeDays
	}
	if flow := flowIn(k, pb.RunningState_RUNNING_STATE_CLEAN); flow > 0 && k.GetFilter() != nil {
		req.FlowLPerH = &flow
	}
	var err error
	made.Winter, err = f.PlanWinter(p.ctx, req)
	return p.part("winter", made.Winter, err)
}

// monthly are the water temperatures of the months, as given or as the year has them; none where they are not known. What asks for them
// needs the year first.
func (p *jobPlan) monthly() []float64 {
	if said := p.job.GetClimate().GetWaterTemperaturesC(); len(said) == 12 {
		return said
	}
	var made []float64
	for _, m := range p.made.GetYear().GetMonths() {
		made = append(made, min(max(m.GetWaterTemperatureC(), 0), 35))
	}
	return made
}

// judgedWater is the brief's water as warm as fish and filter are judged in.
func judgedWater(w *pb.Water) *pb.Water {
	made := &pb.Water{}
	if w != nil {
		made = proto.Clone(w).(*pb.Water)
	}
	if summer := assume.SummerTemperature.Celsius(); made.TemperatureC != nil && made.GetTemperatureC() < summer {
		made.TemperatureC = &summer
	}
	return made
}

func marginOf(b *pb.Brief) *float64 {
	if w := b.GetWishes(); w != nil {
		return w.FilterMarginPercent
	}
	return nil
}

// stockNow are the fish that are put in at the start; nil where there are none.
func stockNow(s *pb.Stock) *pb.Stock {
	made := &pb.Stock{ProteinPercent: s.ProteinPercent}
	for _, g := range s.GetGroups() {
		if g.GetAfterYears() == 0 {
			made.Groups = append(made.Groups, g)
		}
	}
	if len(made.Groups) == 0 {
		return nil
	}
	return made
}

func fishNow(b *pb.Brief) (count int32) {
	for _, g := range b.GetStock().GetGroups() {
		if g.GetAfterYears() == 0 {
			count += g.GetCount()
		}
	}
	return count
}

// stockingSteps is in how many groups the fish go in: thirds, where there are enough of them. Common practice.
func stockingSteps(b *pb.Brief) int { return int(min(3, fishNow(b))) }

// stockingPlan puts the fish in by thirds, the first no more than the filter is told to stand.
func (p *jobPlan) stockingPlan(made *pb.PlannedFiltration) []*pb.StockingStep {
	all, steps := fishNow(p.job.GetBrief()), stockingSteps(p.job.GetBrief())
	if steps == 0 || made.GetRipening() == nil {
		return nil
	}
	const firstDay, pause = 28, 28
	feed := made.GetFish().GetNow().GetFeedGPerDay()
	var plan []*pb.StockingStep
	for i := range steps {
		in := int32(math.Ceil(float64(all) * float64(i+1) / float64(steps)))
		plan = append(plan, &pb.StockingStep{
			Step: int32(i + 1), AfterDays: int32(firstDay + i*pause), FishInAll: in, FeedGPerDay: feed * float64(in) / float64(all),
			Sentence: fmt.Sprintf("%d of %d fish are in after this. Go on when ammonia and nitrite have stayed low for two weeks.", in, all),
		})
	}
	found := finding.Finding{
		Code: "STOCK_IN_STEPS", Severity: finding.Note, Subject: "fish",
		Sentence: "The fish go in by thirds, four weeks apart, the first four weeks after the filter runs. The tests decide and not the date.",
		Change:   "test twice a week", Source: source.Practice,
	}
	first := made.GetRipening().GetFirstStocking()
	if share := first.GetSharePercent(); first.SharePercent != nil && share*float64(steps) < 100 {
		found.Severity = finding.Caution
		found.Sentence += fmt.Sprintf(" A filter that is not ripened beforehand stands no more than %.0f %% of them at once.", share)
		found.Value, found.Limit = finding.Of(100/float64(steps), "%"), finding.Of(share, "%")
		found.Change = "ripen it first with ammonia or with media of a ripe filter, or begin with fewer fish"
	}
	made.Findings = append(made.Findings, wire.Findings([]finding.Finding{found})...)
	return plan
}

// light asks what the lamp unit does.
func (p *jobPlan) light() error {
	k, err := p.theKit()
	lamp := k.GetLampUnit().GetItem().GetLampUnit()
	if err != nil || lamp == nil {
		return err
	}
	if err := p.need(pb.PlanPart_PLAN_PART_WATER, pb.PlanPart_PLAN_PART_YEAR); err != nil || p.made.Water == nil {
		return err
	}
	b := p.job.GetBrief()
	volume, flow := p.made.Water.GetPond().GetNetVolumeL(), flowIn(k, pb.RunningState_RUNNING_STATE_DUE)
	koi := hasKoi(b)
	made, u := &pb.PlannedLight{}, uvLight{engine: p.engine}
	var hours *float64
	if r := b.GetRunning(); r != nil {
		hours = r.HoursPerDay
	}
	made.Dose, err = u.CalculateDose(p.ctx, &pb.CalculateDoseRequest{
		LampUnit: lamp, Water: b.GetWater(), FlowLPerH: flow, PondVolumeL: volume, HoursPerDay: hours, Rules: &pb.LampRuleBasis{Koi: koi}, Workings: p.req.GetWorkings(),
	})
	if err := p.part("light", made.Dose, err); err != nil {
		return err
	}
	made.Clearing, err = u.ForecastClearing(p.ctx, &pb.ForecastClearingRequest{
		LampUnit: lamp, FlowLPerH: flow, PondVolumeL: volume, HoursPerDay: hours, Koi: koi, Workings: p.req.GetWorkings(),
	})
	if err := p.part("clearing", made.Clearing, err); err != nil {
		return err
	}
	if first, last, ok := p.lampSeason(); ok {
		var price *float64
		if r := b.GetRunning(); r != nil {
			price = r.EnergyPricePerKwh
		}
		made.Season, err = u.PlanLampSeason(p.ctx, &pb.PlanLampSeasonRequest{
			LampUnit: lamp, FirstDay: first, LastDay: last, HoursPerDay: hours, EnergyPricePerKwh: price, Workings: p.req.GetWorkings(),
		})
		if err := p.part("lamp season", made.Season, err); err != nil {
			return err
		}
	}
	p.made.Light = made
	return nil
}

func hasKoi(b *pb.Brief) bool {
	for _, g := range b.GetStock().GetGroups() {
		if g.GetSpecies() == pb.Species_SPECIES_KOI {
			return true
		}
	}
	return false
}

// lampSeason is from when to when the lamp burns in the first whole year: while algae grow, where the year was followed, and else by the
// water. There is none where that is not known, or where the water is never so warm or never so cold.
func (p *jobPlan) lampSeason() (first, last string, ok bool) {
	if s := p.made.GetYear().GetSeason(); s != nil {
		span := s.GetLamp()
		return span.GetFirstDay(), span.GetLastDay(), span.GetFirstDay() != "" && span.GetFirstDay() <= span.GetLastDay()
	}
	on, off := 0, 0
	for _, e := range calendar.Year(nil, calendar.Jobs(calendar.Owner{Lamp: true}), wire.MonthTemperatures(p.monthly())) {
		switch e.ID {
		case "lamp_on":
			on = e.Day
		case "lamp_off":
			off = e.Day
		}
	}
	if on == 0 || off == 0 {
		return "", "", false
	}
	year := p.firstYear()
	end := year
	if off < on { // over the turn of the year
		end++
	}
	day := func(year, number int) string {
		return time.Date(year, time.January, number, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
	}
	return day(year, on), day(end, off), true
}

// firstYear is the first whole year after the work begins, or a common year where no day is told.
func (p *jobPlan) firstYear() int {
	const common = 2027
	if first, known, _ := wire.StartDay(p.job.GetWork()); known {
		return first.Year() + 1
	}
	return common
}

// runsDaily is how long the pump runs a day.
func (p *jobPlan) runsDaily() unit.Time {
	if r := p.job.GetBrief().GetRunning(); r != nil && r.HoursPerDay != nil {
		return unit.Hours(r.GetHoursPerDay())
	}
	return assume.RunsDaily
}
