package service

import (
	"context"
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	light "example.com/pondwright/calc/uv/lamp"
	"example.com/pondwright/calc/visit"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s jobs) AssessVisit(ctx context.Context, req *pb.AssessVisitRequest) (*pb.AssessVisitResponse, error) {
	snapshot := s.engine.Store.Snapshot()
	p := newJobPlan(ctx, s.engine, snapshot, &pb.PlanJobRequest{Job: req.GetJob(), Workings: req.GetWorkings()})
	v := visited{plan: p, req: req, resp: &pb.AssessVisitResponse{}}
	if err := v.assess(); err != nil {
		return nil, stopped(ctx, refused(err, ""))
	}
	v.resp.Findings = wire.Findings(v.ordered())
	v.resp.NextSteps = v.steps()
	v.resp.Workings = p.steps
	var err error
	v.resp.Provenance, err = s.engine.provenance(req, snapshot)
	return v.resp, err
}

// A visited is a visit on its way to an answer.
type visited struct {
	plan  *jobPlan
	req   *pb.AssessVisitRequest
	resp  *pb.AssessVisitResponse
	found []finding.Finding
}

func (v *visited) assess() error {
	var faults jobFaults
	if err := faults.add(v.plan.check(), placing{"": "job"}.at); err != nil {
		return err
	}
	if level := v.req.GetLevel(); level != nil && level.RunningMmPerDay == nil && level.StoppedMmPerDay == nil {
		faults.errs.Add("level", "give running_mm_per_day, stopped_mm_per_day or both", "no fall of the level was read")
	}
	if err := faults.err(); err != nil {
		return err
	}
	t := v.plan.trail()
	for _, part := range []func() error{v.flow, v.level, v.lamp} {
		if err := gone(v.plan.ctx); err != nil {
			return err
		}
		if err := part(); err != nil {
			return err
		}
	}
	if v.req.GetWater() != nil {
		held, found := wire.VisitWater(v.req.GetWater()).Judge(t)
		v.resp.Water = wire.HeldLimits(held)
		v.found = append(v.found, found...)
		v.plan.record("water", t)
	}
	return nil
}

// flow holds the flow that was measured against what is expected, and looks for what explains the difference.
func (v *visited) flow() error {
	said := v.req.GetFlow()
	if said == nil {
		return nil
	}
	k, err := v.plan.theKit()
	if err != nil {
		return err
	}
	if k == nil {
		v.found = append(v.found, finding.Finding{
			Code: "NO_DESIGN_FLOW", Severity: finding.Stop, Subject: "flow",
			Sentence: "No kit of the catalogues does what the job asks, so that there is no design to hold the flow against.",
			Change:   "name the kit that was built in by its item numbers, or mend the brief", Source: source.Definition,
		})
		return nil
	}
	if k.GetSecondPump() != nil {
		v.found = append(v.found, twoPumps())
		return nil
	}
	circuit := wire.JobCircuit(v.plan.job, k, v.plan.made.Water.GetPond().GetBays()[0].GetDepthM())
	ask := &pb.CalibrateCircuitRequest{Circuit: circuit, PowerW: said.PowerW, WaterTemperatureC: said.WaterTemperatureC, Workings: v.req.GetWorkings()}
	copyOneof(said, ask, "measurement")
	if said.PowerW != nil {
		const off = 0.05 // of a plug-in meter: common practice
		ask.PowerUnsureW = new(off * said.GetPowerW())
	}
	fit, err := circuits{engine: v.plan.engine}.CalibrateCircuit(v.plan.ctx, ask)
	if err != nil {
		var faults jobFaults
		if err := faults.add(err, placing{"bucket": "flow.bucket", "drop": "flow.drop", "": "flow"}.at); err != nil {
			return err
		}
		return faults.err()
	}
	v.plan.take("flow", fit)
	t := v.plan.trail()
	expected := fit.GetCalculatedLPerH().GetExpected()
	if expected == 0 {
		expected = flowIn(k, pb.RunningState_RUNNING_STATE_CLEAN)
	}
	if said.BaselineLPerH != nil {
		expected = said.GetBaselineLPerH()
	}
	index := visit.FlowIndex.Run(t, visit.IndexInput{Now: unit.LitresPerHour(fit.GetMeasuredLPerH()), Expected: unit.LitresPerHour(expected)})
	v.plan.record("flow", t)
	v.resp.Flow = &pb.VisitedFlow{IndexPercent: index.Percent(), ExpectedLPerH: expected, Calibration: fit}
	v.found = append(v.found, visit.JudgeFlow(index, unit.Ratio(fit.GetMeasuredUnsureLPerH()/expected)))
	return nil
}

// How far evaporation that nobody measured may be off: an engineering choice.
const (
	guessedEvaporation  = unit.Ratio(0.5)
	measuredEvaporation = unit.Ratio(0.15)
	summerEvaporation   = 4.0 // mm a day, of open water in high summer: common practice
)

func (v *visited) level() error {
	said := v.req.GetLevel()
	if said == nil {
		return nil
	}
	t := v.plan.trail()
	l := visit.Level{
		Evaporation: unit.Millimetres(summerEvaporation), EvaporationOff: guessedEvaporation, Rain: unit.Millimetres(said.GetRainMmPerDay()),
		Unsure: unit.Millimetres(1), Running: wire.Millimetres(said.RunningMmPerDay), Stopped: wire.Millimetres(said.StoppedMmPerDay),
		Pond: unit.SquareMetres(v.plan.pumpSurface()), All: v.openWater(),
	}
	switch c := v.req.GetJob().GetClimate(); {
	case said.EvaporationMmPerDay != nil:
		l.Evaporation, l.EvaporationOff = unit.Millimetres(said.GetEvaporationMmPerDay()), measuredEvaporation
	case c != nil && c.EvaporationMmPerDay != nil:
		l.Evaporation = unit.Millimetres(c.GetEvaporationMmPerDay())
	default:
		v.found = append(v.found, finding.Finding{
			Code: "ASSUMED", Severity: finding.Note, Subject: "level",
			Sentence: "How much evaporates was not given; 4 mm a day is assumed, as on a day of high summer, and may be half or half as much again.",
			Value:    finding.Of(summerEvaporation, "mm"), Change: "stand a bucket of pond water in the pond and read both", Source: source.Practice,
		})
	}
	if said.UnsureMm != nil {
		l.Unsure = unit.Millimetres(said.GetUnsureMm())
	}
	loss := l.Explain(t)
	v.plan.record("level", t)
	v.resp.Level = wire.VisitedLevel(loss)
	v.found = append(v.found, loss.Findings...)
	return v.byWeather()
}

// byWeather asks SeasonService what the weather of that time of the year makes of the readings.
func (v *visited) byWeather() error {
	said, c := v.req.GetLevel(), v.req.GetJob().GetClimate()
	if said.GetDay() == "" || c.GetSite() == nil {
		return nil
	}
	ask := &pb.ExplainLevelDropsRequest{
		Pond: &pb.SeasonPond{Water: &pb.SeasonPond_Pond{Pond: v.plan.job.GetBrief().GetPond()}}, Climate: c.GetSite(), Workings: v.req.GetWorkings(),
	}
	for _, one := range []struct {
		fall *float64
		on   bool
	}{{said.StoppedMmPerDay, false}, {said.RunningMmPerDay, true}} {
		if one.fall != nil {
			const day = 24
			ask.Drops = append(ask.Drops, &pb.LevelDrop{
				FromDay: said.GetDay(), Hours: day, DropMm: *one.fall, FallsOn: one.on, RainMm: &said.RainMmPerDay, ReadingUncertaintyMm: said.UnsureMm,
			})
		}
	}
	explained, err := seasons{engine: v.plan.engine}.ExplainLevelDrops(v.plan.ctx, ask)
	if err != nil {
		var faults jobFaults
		if err := faults.add(err, placing{"climate": "job.climate.site", "pond": "job.brief.pond", "drops": "level.day", "": "level"}.at); err != nil {
			return err
		}
		return faults.err()
	}
	v.plan.take("level by the weather", explained)
	v.resp.Level.Explained = explained
	return nil
}

// openWater is the surface of everything that gives off vapour: pond, upper water and stream.
func (v *visited) openWater() unit.Area {
	all := v.plan.made.Water.GetPond().GetSurfaceM2()
	build := v.req.GetJob().GetFallBuild()
	if len(v.plan.job.GetBrief().GetPond().GetBays()) == 1 {
		for _, u := range build.GetUpper() {
			all += u.GetAreaM2() // with several bays the upper ones are among them
		}
	}
	for _, r := range build.GetReaches() {
		all += r.GetLengthM() * r.GetBedM()
	}
	return unit.SquareMetres(all)
}

// lamp says how old the lamps are and what light is left.
func (v *visited) lamp() error {
	said := v.req.GetLamp()
	if said == nil {
		return nil
	}
	k, err := v.plan.theKit()
	if err != nil {
		return err
	}
	lamp := k.GetLampUnit().GetItem().GetLampUnit()
	if lamp == nil {
		v.found = append(v.found, finding.Finding{
			Code: "NO_LAMP_IN_DESIGN", Severity: finding.Note, Subject: "lamp unit", Sentence: "The design has no lamp unit to hold the hours against.", Source: source.Definition,
		})
		return nil
	}
	used := said.GetBurnedH() / lamp.GetLifeH()
	made := &pb.VisitedLamp{UsedLifePercent: 100 * used, DueInH: max(0, lamp.GetLifeH()-said.GetBurnedH())}
	t := v.plan.trail()
	t.About("lamps today")
	left := light.Aged.Run(t, light.AgedInput{NewOutput: unit.Watts(1), Age: unit.Ratio(min(used, 1)), EndShare: light.EndOfLifeShare})
	v.plan.record("lamp unit", t)
	made.LightLeftPercent = 100 * left.Watts()
	v.resp.Lamp = made
	f := finding.Finding{
		Code: "LAMP_NOT_DUE", Severity: finding.Note, Subject: "lamp unit", Value: finding.Of(100*used, "%"), Source: source.Stated,
		Sentence: "The lamps are within their rated life.",
	}
	if used >= 1 {
		f.Code, f.Severity, f.Limit = "LAMP_DUE", finding.Caution, finding.Of(100, "%")
		f.Sentence = "The lamps have burned as long as they are sold to last: they still glow, but the light that counts is going."
		f.Change = "unplug, change the lamps, clean the sleeve, and take the old ones to the collection point: they hold mercury"
	}
	v.found = append(v.found, f)
	return nil
}

// ordered is what was found, gravest first.
func (v *visited) ordered() []finding.Finding {
	found := merged(nil, v.found)
	slices.SortStableFunc(found, func(a, b finding.Finding) int { return int(b.Severity) - int(a.Severity) })
	return found
}

// steps are what to do, in order: what the fish cannot wait for comes first.
func (v *visited) steps() []string {
	var steps []string
	add := func(text string) {
		if text != "" && !slices.Contains(steps, text) {
			steps = append(steps, text)
		}
	}
	for _, urgent := range []bool{true, false} {
		for _, f := range v.ordered() {
			isWater := f.Code == "WATER_ABOVE_LIMIT" || f.Code == "WATER_BELOW_LIMIT"
			if isWater == urgent && f.Severity > finding.Note {
				add(sentence(f.Change))
			}
		}
		if urgent {
			for _, f := range v.resp.GetFlow().GetCalibration().GetFindings() {
				if f.GetSeverity() > pb.Severity_SEVERITY_NOTE {
					add(sentence(f.GetChange()))
				}
			}
		}
	}
	if len(steps) == 0 {
		add("Nothing needs doing. Write today's numbers into the book.")
	} else {
		add("Measure again afterwards, and write the numbers into the book.")
	}
	return steps
}

// sentence begins with a capital and ends with a stop.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	if c := text[0]; c >= 'a' && c <= 'z' {
		text = string(c-'a'+'A') + text[1:]
	}
	if text[len(text)-1] != '.' {
		text += "."
	}
	return text
}
