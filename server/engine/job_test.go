package engine_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// job is a whole job around the brief of the other tests.
func job() *pb.JobBrief {
	return &pb.JobBrief{
		Brief:   brief(),
		Site:    &pb.JobSite{Ground: pb.GroundKind_GROUND_KIND_CLAY, TurfM: number(0.05), TopsoilM: number(0.1), BedM: number(0.05), GateWidthM: number(0.9)},
		Lining:  &pb.JobLining{Material: pb.LiningMaterial_LINING_MATERIAL_RUBBER, ThicknessMm: number(1.0), Edge: &pb.LiningEdge{FreeboardM: number(0.08), OverlapM: number(0.3)}},
		Edging:  &pb.StoneEdging{LengthM: 0.4, WidthM: 0.3, HeightM: 0.08, JointM: 0.01, BedM: 0.03},
		Beds:    []*pb.StoneBed{{Name: "gravel", LengthM: 2, WidthM: 1, HeightM: 0.1}},
		Supply:  &pb.WaterSupply{FlowLPerMin: number(12.0), PricePerM3: number(4.0), ChlorineMgPerL: number(0.5), IsChloramine: true},
		Flush:   &pb.FlushRoute{HoseLengthM: 5, OutletHeightM: 0.1},
		Climate: &pb.JobClimate{WaterTemperaturesC: []float64{3, 3.5, 6, 9.5, 14, 18, 20.5, 20, 16, 11, 6.5, 4}, FreezingDegreeDays: number(60.0)},
		Electrics: &pb.PowerSupply{CableM: number(40.0), Others: []*pb.ElectricItem{
			{Name: "air pump", PowerW: 20}, {Name: "lights", PowerW: 30, HoursPerDay: number(4.0)},
		}},
		FallBuild:   &pb.FallBuild{Upper: []*pb.UpperWater{{Name: "upper pool", AreaM2: 1.2}}},
		WinterRoute: &pb.WinterRoute{HoseLengthM: 3, PastFilter: true, PastLampUnit: true},
		Work:        &pb.JobWork{StartDay: "2027-04-12", People: new(int32(2))},
		Prices:      &pb.JobPrices{LabourPerH: number(35.0), StonePerT: number(180.0), MortarPerBag: number(7.5), SpoilPerLoad: number(260.0)},
	}
}

func plan(t testing.TB, client pb.JobServiceClient, j *pb.JobBrief, parts ...pb.PlanPart) *pb.PlanJobResponse {
	t.Helper()
	resp, err := client.PlanJob(t.Context(), &pb.PlanJobRequest{Job: j, Parts: parts})
	require.NoError(t, err)
	return resp
}

func figure(r *pb.PlanJobResponse, name string) *pb.PlanFigure {
	for _, f := range r.GetFigures() {
		if f.GetFigure() == name {
			return f
		}
	}
	return nil
}

// A plan is the other services' answers to one question: each number is the one they give by themselves.
func TestAPlanAgreesWithTheServicesItIsMadeOf(t *testing.T) {
	_, conn := start(t)
	j := job()
	whole := plan(t, pb.NewJobServiceClient(conn), j)
	kits, err := pb.NewKitServiceClient(conn).SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: j.GetBrief(), MaxKits: 1})
	require.NoError(t, err)
	kits.Provenance = nil
	assert.True(t, proto.Equal(kits, whole.GetKit().GetSuggested()))
	dig, err := pb.NewVolumeServiceClient(conn).PlanDig(t.Context(), &pb.PlanDigRequest{
		Pond: j.GetBrief().GetPond(), FreeboardM: number(0.08), BedM: 0.05, TurfM: 0.05, TopsoilM: 0.1, Ground: pb.GroundKind_GROUND_KIND_CLAY,
	})
	require.NoError(t, err)
	assert.Equal(t, dig.GetTotalM3(), whole.GetQuantities().GetDig().GetTotalM3())
	oxygen, err := pb.NewFiltrationServiceClient(conn).CalculateFishLoad(t.Context(), &pb.CalculateFishLoadRequest{Stock: j.GetBrief().GetStock()})
	require.NoError(t, err)
	assert.Equal(t, oxygen.GetGrown().GetMassKg(), whole.GetFiltration().GetFish().GetGrown().GetMassKg())
}

// Two ways to one flow: the search by loops that chose the kit, and the solver of branched circuits that runs it in every state.
func TestTheStatesRunTheKitThatWasChosen(t *testing.T) {
	_, conn := start(t)
	whole := plan(t, pb.NewJobServiceClient(conn), job())
	states := whole.GetStates().GetStates()
	for _, one := range []struct {
		state pb.RunningState
		runs  *pb.StateSolution
	}{{pb.RunningState_RUNNING_STATE_CLEAN, states.GetClean()}, {pb.RunningState_RUNNING_STATE_DUE, states.GetDue()}} {
		for _, s := range whole.GetKit().GetKit().GetStates() {
			if s.GetState() == one.state {
				// Both solve to 1e-9 of the flow or better; the summer water of the states is 20 °C as the brief's is.
				assert.InEpsilon(t, s.GetDuty().GetFlowLPerH().GetExpected(), one.runs.GetSolution().GetFlowLPerH(), 1e-3)
			}
		}
	}
	require.NotNil(t, states.GetWinter().GetSolution())
	assert.Greater(t, states.GetWinter().GetSolution().GetFlowLPerH(), states.GetClean().GetSolution().GetFlowLPerH(), "without lift and lamp unit more flows")
	solved := map[string]*pb.StateSolution{
		"clean": states.GetClean(), "due for cleaning": states.GetDue(), "winter": states.GetWinter(), "flushing": states.GetFlush().GetRunning(),
	}
	assert.Len(t, whole.GetKit().GetCurves(), len(solved))
	for _, c := range whole.GetKit().GetCurves() {
		require.NotNil(t, c.GetDuty(), c.GetState())
		// The network solver takes the same way by another road.
		assert.InEpsilon(t, solved[c.GetState()].GetSolution().GetFlowLPerH(), c.GetDuty().GetFlowLPerH(), 1e-3, c.GetState())
		assert.Greater(t, c.GetPump()[0].GetHeadM(), c.GetCircuit()[0].GetHeadM())
		last := len(c.GetPump()) - 1
		assert.Less(t, c.GetPump()[last].GetHeadM(), c.GetCircuit()[last].GetHeadM(), "they cross once between")
	}
	// The upper pool of 1.2 m² stands higher by the head over its sill: 1.2 L for each millimetre, over the 5.5 m² of the pond.
	head := whole.GetStates().GetCascade().GetLandings()[0].GetHeadMm()
	assert.InEpsilon(t, 1.2*head, whole.GetStates().GetTransitL(), 1e-12)
	assert.InEpsilon(t, 1.2*head/whole.GetWater().GetPond().GetSurfaceM2(), whole.GetStates().GetStartDropMm(), 1e-12)
}

// setParts are the parts of an answer that are there.
func setParts(r *pb.PlanJobResponse) (names []string) {
	r.ProtoReflect().Range(func(fd protoreflect.FieldDescriptor, _ protoreflect.Value) bool {
		switch fd.Name() {
		case "asked", "figures", "findings", "provenance", "answer_digest", "workings":
		default:
			names = append(names, string(fd.Name()))
		}
		return true
	})
	return names
}

func TestEachPartCanBeAskedForAlone(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	whole := plan(t, client, job())
	assert.Len(t, setParts(whole), 14)
	names := map[string]bool{}
	for number, name := range pb.PlanPart_name {
		part := pb.PlanPart(number)
		if part == pb.PlanPart_PLAN_PART_UNSPECIFIED {
			continue
		}
		alone := plan(t, client, job(), part)
		set := setParts(alone)
		require.Len(t, set, 1, name)
		names[set[0]] = true
		// Alone it says what it says among the others.
		fd := alone.ProtoReflect().Descriptor().Fields().ByName(protoreflect.Name(set[0]))
		if fd.IsList() {
			assert.Equal(t, whole.ProtoReflect().Get(fd).List().Len(), alone.ProtoReflect().Get(fd).List().Len(), name)
		} else {
			assert.True(t, proto.Equal(whole.ProtoReflect().Get(fd).Message().Interface(), alone.ProtoReflect().Get(fd).Message().Interface()), name)
		}
	}
	assert.Len(t, names, 14)
}

// Everything a plan rests on is in its answer, so that the answer alone, kept as JSON, can be asked again years later.
func TestAPlanKeptAsJSONComesOutTheSame(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	first, err := client.PlanJob(t.Context(), &pb.PlanJobRequest{Job: job(), Workings: true})
	require.NoError(t, err)
	kept, err := protojson.Marshal(first)
	require.NoError(t, err)
	var again pb.PlanJobResponse
	require.NoError(t, protojson.Unmarshal(kept, &again))
	second, err := client.PlanJob(t.Context(), again.GetAsked())
	require.NoError(t, err)
	assert.Equal(t, first.GetAnswerDigest(), second.GetAnswerDigest())
	assert.Len(t, first.GetAnswerDigest(), 64)
	assert.Equal(t, first.GetProvenance().GetRequestDigest(), second.GetProvenance().GetRequestDigest())
	bytesOf := func(m proto.Message) []byte {
		b, err := proto.MarshalOptions{Deterministic: true}.Marshal(m)
		require.NoError(t, err)
		return b
	}
	assert.Equal(t, bytesOf(first), bytesOf(second))

	resp, err := client.RecheckPlan(t.Context(), &pb.RecheckPlanRequest{Asked: again.GetAsked(), Former: former(&again)})
	require.NoError(t, err)
	assert.True(t, resp.GetSameQuestion())
	assert.True(t, resp.GetSameAnswer())
	assert.False(t, resp.GetOtherMethodSet())
	assert.Empty(t, resp.GetDifferences())
	assert.Empty(t, resp.GetCatalogueDifferences())
	assert.Equal(t, len(first.GetFigures()), int(resp.GetSameCount()))
	assert.NotNil(t, finding(resp.GetFindings(), "SAME_ANSWER"))
}

// former is what RecheckPlan asks for of a plan that was kept.
func former(r *pb.PlanJobResponse) *pb.FormerPlan {
	p := r.GetProvenance()
	made := &pb.FormerPlan{
		EngineVersion: p.GetEngineVersion(), MethodSet: p.GetMethodSet(), RequestDigest: p.GetRequestDigest(), AnswerDigest: r.GetAnswerDigest(), Figures: r.GetFigures(),
	}
	for _, c := range p.GetCatalogues() {
		made.Catalogues = append(made.Catalogues, &pb.FormerCatalogue{Catalogue: c.GetCatalogue(), Revision: c.GetRevision()})
	}
	return made
}

// A plan of another time, by other methods and catalogues, says what has changed since.
func TestAnOldPlanSaysWhatChanged(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	now := plan(t, client, job())
	old := former(now)
	old.MethodSet, old.EngineVersion, old.AnswerDigest = "2019.03", "0.1", ""
	old.Catalogues = append(old.Catalogues[:0:0], &pb.FormerCatalogue{Catalogue: old.Catalogues[0].GetCatalogue(), Revision: "older"}, &pb.FormerCatalogue{Catalogue: "gone", Revision: "1"})
	old.Figures = nil
	for _, f := range now.GetFigures() {
		f := proto.Clone(f).(*pb.PlanFigure)
		switch f.GetFigure() {
		case "kit.pump":
			f.Is = &pb.PlanFigure_Word{Word: "PU-OLD"}
		case "kit.flow_clean_l_per_h":
			f.Is = &pb.PlanFigure_Number{Number: f.GetNumber() / 1.25}
		case "fill.hours":
			continue // was not told then
		}
		old.Figures = append(old.Figures, f)
	}
	resp, err := client.RecheckPlan(t.Context(), &pb.RecheckPlanRequest{Asked: now.GetAsked(), Former: old})
	require.NoError(t, err)
	assert.True(t, resp.GetSameQuestion())
	assert.False(t, resp.GetSameAnswer())
	assert.True(t, resp.GetOtherMethodSet())
	require.Len(t, resp.GetCatalogueDifferences(), 2)
	assert.Equal(t, "older", resp.GetCatalogueDifferences()[0].GetRevisionBefore())
	assert.Empty(t, resp.GetCatalogueDifferences()[1].GetRevisionAfter())
	got := map[string]*pb.PlanDifference{}
	for _, d := range resp.GetDifferences() {
		got[d.GetFigure()] = d
	}
	require.Len(t, got, 3)
	assert.Equal(t, "PU-OLD", got["kit.pump"].GetWordBefore())
	assert.InDelta(t, 25, got["kit.flow_clean_l_per_h"].GetChangePercent(), 1e-9)
	assert.Nil(t, got["fill.hours"].Before)
	assert.NotNil(t, got["fill.hours"].After)
	for _, code := range []string{"OTHER_METHODS", "OTHER_ENGINE", "OTHER_CATALOGUES", "OTHER_FIGURES"} {
		assert.NotNil(t, finding(resp.GetFindings(), code), code)
	}
	changed := proto.Clone(now.GetAsked()).(*pb.PlanJobRequest)
	changed.Job.Brief.Delivery.HoseLengthM = 9
	resp, err = client.RecheckPlan(t.Context(), &pb.RecheckPlanRequest{Asked: changed, Former: former(now)})
	require.NoError(t, err)
	assert.NotNil(t, finding(resp.GetFindings(), "OTHER_QUESTION"))
}

// A longer hose and another kit, side by side: what each changes is what one would expect of it.
func TestPlansAreComparedSideBySide(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	deeper := job()
	deeper.Brief.Pond.Bays[0].DepthM = 1.1
	resp, err := client.ComparePlans(t.Context(), &pb.ComparePlansRequest{Before: job(), After: &pb.ComparePlansRequest_Job{Job: deeper}})
	require.NoError(t, err)
	got := map[string]*pb.PlanDifference{}
	for _, d := range resp.GetDifferences() {
		got[d.GetFigure()] = d
		assert.NotEmpty(t, d.GetWhy(), d.GetFigure())
	}
	for _, more := range []string{"water.volume_l", "water.depth_m", "quantities.dig", "quantities.lining", "fill.hours"} {
		require.Contains(t, got, more)
		assert.Greater(t, got[more].GetChangePercent(), 0.0, more)
	}
	assert.NotContains(t, got, "water.surface_m2")
	assert.Positive(t, resp.GetSameCount())

	same, err := client.ComparePlans(t.Context(), &pb.ComparePlansRequest{Before: job(), After: &pb.ComparePlansRequest_Job{Job: job()}})
	require.NoError(t, err)
	assert.Empty(t, same.GetDifferences())
	assert.NotNil(t, finding(same.GetFindings(), "NOTHING_CHANGES"))

	kit := plan(t, client, job(), pb.PlanPart_PLAN_PART_KIT).GetKit().GetKit()
	other, err := pb.NewKitServiceClient(conn).SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: brief(), MaxKits: 5})
	require.NoError(t, err)
	var pump string
	for _, k := range other.GetKits() {
		if n := k.GetPump().GetItem().GetItemNumber(); n != kit.GetPump().GetItem().GetItemNumber() {
			pump = n
		}
	}
	require.NotEmpty(t, pump, "the demo catalogue has more than one pump that will do")
	resp, err = client.ComparePlans(t.Context(), &pb.ComparePlansRequest{
		Before: job(), After: &pb.ComparePlansRequest_Kit{Kit: &pb.KitChoice{Pump: pump}}, Parts: []pb.PlanPart{pb.PlanPart_PLAN_PART_KIT},
	})
	require.NoError(t, err)
	require.NotEmpty(t, resp.GetDifferences())
	assert.Equal(t, pump, resp.GetDifferences()[0].GetWordAfter())
}

// A kit that was chosen and does not do is an answer with what stops it, and what hangs on it is left out and said.
func TestAChosenKitThatFailsIsSaid(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	j := job()
	j.Brief.Fall.HeightM = number(25.0)
	resp := plan(t, client, j)
	assert.NotNil(t, finding(resp.GetFindings(), "NO_KIT_WORKS"))
	assert.Nil(t, resp.GetStates())
	assert.NotNil(t, resp.GetWork())
	assert.NotEmpty(t, resp.GetCautions())
}

// Whatever is wrong anywhere in a job is told at once, each fault with the field it stands in.
func TestEveryFaultOfAJobIsToldAtOnce(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	j := job()
	j.Brief.Stock.Groups[0].GrownLengthCm = number(5.0) // shorter than today
	j.Brief.Delivery.FittingsInWords = "3 quick bonds"
	j.Kit = &pb.KitChoice{Pump: "NO-SUCH-PUMP", Filter: "NO-SUCH-FILTER"}
	j.Work.StartDay = "2027-02-30"
	j.Work.Extra = []*pb.ExtraTask{{Task: "paint the shed", WorkH: 4, After: "moon"}}
	j.Electrics.ConductorMm2 = number(3.0)
	j.Site.TopsoilM = number(0.9)
	j.Climate.Site = &pb.SiteClimate{Weather: &pb.SiteClimate_Named{Named: "atlantis"}}
	j.FallBuild.Steps = []*pb.CascadeStep{{Edge: pb.SillEdge_SILL_EDGE_SQUARE, WidthM: 0.4, DropM: 0.3}} // a stone without its breadth
	_, err := client.PlanJob(t.Context(), &pb.PlanJobRequest{Job: j})
	assert.ElementsMatch(t, []string{
		"job.brief.stock.groups[0].grown_length_cm", "job.brief.delivery.fittings_in_words", "job.kit.pump", "job.kit.filter", "job.work.start_day", "job.work.extra[0].after",
		"job.electrics.conductor_mm2", "job.site.topsoil_m", "job.climate.site.named", "job.fall_build.steps[0].breadth_m",
	}, fields(t, err))
	_, err = client.AssessVisit(t.Context(), &pb.AssessVisitRequest{Job: j, Level: &pb.VisitLevel{}})
	assert.Contains(t, fields(t, err), "level")
	_, err = client.ComparePlans(t.Context(), &pb.ComparePlansRequest{Before: job(), After: &pb.ComparePlansRequest_Job{Job: j}})
	assert.Contains(t, fields(t, err), "job.kit.pump")
}

func TestAJobIsHeldToTheRulesOfItsFields(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	j := job()
	j.Climate.WaterTemperaturesC = j.Climate.WaterTemperaturesC[:7]
	j.Work.MortarCureDays = number(2.0)
	j.Electrics.Others[0].PowerW = -1
	_, err := client.PlanJob(t.Context(), &pb.PlanJobRequest{Job: j, Parts: []pb.PlanPart{pb.PlanPart_PLAN_PART_KIT, pb.PlanPart_PLAN_PART_KIT}})
	assert.ElementsMatch(t, []string{"job.climate.water_temperatures_c", "job.work.mortar_cure_days", "job.electrics.others[0].power_w", "parts"}, fields(t, err))
	_, err = client.AssessVisit(t.Context(), &pb.AssessVisitRequest{Job: job()})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
}

// A caller who is gone is not worked for.
func TestAJobStopsWithItsCaller(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	ctx, cancel := context.WithTimeout(t.Context(), time.Microsecond)
	defer cancel()
	_, err := client.PlanJob(ctx, &pb.PlanJobRequest{Job: job()})
	assert.Equal(t, codes.DeadlineExceeded, status.Code(err))
}

// The formulas that a plan records can be evaluated again from the wire, to the last bit.
func TestThePlanCanBeReplayed(t *testing.T) {
	_, conn := start(t)
	resp, err := pb.NewJobServiceClient(conn).PlanJob(t.Context(), &pb.PlanJobRequest{Job: job(), Workings: true})
	require.NoError(t, err)
	require.Greater(t, len(resp.GetWorkings()), 100)
	replaySteps(t, resp.GetWorkings())
	rooms := map[string]bool{}
	for _, s := range resp.GetWorkings() {
		room, _, _ := strings.Cut(s.GetFormulaId(), ".")
		rooms[room] = true
	}
	for _, room := range []string{"work", "electric", "treat", "handover", "calendar", "lining", "dig", "outline", "stock", "filter", "ripening", "oxygen"} {
		assert.True(t, rooms[room], room)
	}
}

func TestAVisitIsHeldAgainstTheDesign(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	j := job()
	design := plan(t, client, j, pb.PlanPart_PLAN_PART_KIT)
	flow := figure(design, "kit.flow_clean_l_per_h").GetNumber()
	seconds := func(share float64) *pb.VisitFlow {
		return &pb.VisitFlow{Measurement: &pb.VisitFlow_Bucket{Bucket: &pb.BucketMeasurement{VolumeL: 12, TimeS: 12 * 3600 / (flow * share), TimeUnsureS: 0.3, VolumeUnsureL: 0.1}}}
	}
	sound, err := client.AssessVisit(t.Context(), &pb.AssessVisitRequest{Job: j, Flow: seconds(1)})
	require.NoError(t, err)
	// The visit's circuit has water of 15 °C and the kit's of 20 °C, which makes a percent.
	assert.InDelta(t, 100, sound.GetFlow().GetIndexPercent(), 1.5)
	assert.NotNil(t, finding(sound.GetFindings(), "FLOW_AS_PLANNED"))
	assert.Len(t, sound.GetNextSteps(), 1)

	bad, err := client.AssessVisit(t.Context(), &pb.AssessVisitRequest{
		Job: j, Flow: seconds(0.6), Level: &pb.VisitLevel{RunningMmPerDay: number(14.0), StoppedMmPerDay: number(5.0), EvaporationMmPerDay: number(4.5)},
		Water: &pb.VisitWater{TemperatureC: number(20.0), Ph: number(8.5), TanMgPerL: number(1.2), NitriteNMgPerL: number(0.3)}, Lamp: &pb.VisitLamp{BurnedH: 20000}, Workings: true,
	})
	require.NoError(t, err)
	assert.InDelta(t, 60, bad.GetFlow().GetIndexPercent(), 1)
	assert.Positive(t, bad.GetFlow().GetCalibration().GetExtraHeadM().GetExpected(), "head lost beyond the design")
	for _, code := range []string{"FLOW_FAR_BELOW", "FALL_LOSES_WATER", "WATER_ABOVE_LIMIT", "LAMP_DUE"} {
		assert.NotNil(t, finding(bad.GetFindings(), code), code)
	}
	assert.InDelta(t, 9, bad.GetLevel().GetFallShareMmPerDay(), 1e-9)
	require.NotEmpty(t, bad.GetNextSteps())
	assert.Contains(t, bad.GetNextSteps()[0], "Stop feeding", "what the fish cannot wait for comes first")
	replaySteps(t, bad.GetWorkings())
}

// The order of work comes out on the calendar: cured a week, nothing on a weekend, and fish last.
func TestTheOrderOfWorkKeepsTheCalendar(t *testing.T) {
	_, conn := start(t)
	work := plan(t, pb.NewJobServiceClient(conn), job(), pb.PlanPart_PLAN_PART_WORK).GetWork()
	day := map[string][2]time.Time{}
	for _, task := range work.GetTasks() {
		first, err := time.Parse(time.DateOnly, task.GetFirstDay())
		require.NoError(t, err)
		last, err := time.Parse(time.DateOnly, task.GetLastDay())
		require.NoError(t, err)
		day[task.GetTask()] = [2]time.Time{first, last}
		if task.GetWorkH() > 0 {
			assert.NotContains(t, []time.Weekday{time.Saturday, time.Sunday}, first.Weekday(), task.GetTask())
		}
		assert.Equal(t, int(first.Sub(time.Date(2027, 4, 12, 0, 0, 0, 0, time.UTC)).Hours()/24)+1, int(task.GetFirstDayNumber()))
	}
	assert.Equal(t, "2027-04-12", work.GetFirstDay())
	assert.False(t, day["turf"][0].After(day["dig"][0]))
	assert.GreaterOrEqual(t, day["fill"][0].Sub(day["fall"][1]), 7*24*time.Hour, "a week of curing")
	assert.GreaterOrEqual(t, day["stock_1"][0].Sub(day["run"][1]), 28*24*time.Hour)
	assert.Equal(t, day["stock_3"][1].Format(time.DateOnly), work.GetStockedDay())
}

func BenchmarkPlanJob(b *testing.B) {
	_, conn := start(b)
	client := pb.NewJobServiceClient(conn)
	b.Run("whole plan", func(b *testing.B) {
		for b.Loop() {
			plan(b, client, job())
		}
	})
	b.Run("kit alone", func(b *testing.B) { // the bound: what the search of the kit takes by itself
		req := &pb.SuggestKitsRequest{Brief: brief(), MaxKits: 1}
		for b.Loop() {
			_, err := pb.NewKitServiceClient(conn).SuggestKits(context.Background(), req)
			require.NoError(b, err)
		}
	})
}

// With the weather of its site the job's year is the year SeasonService follows, and what hangs on the months goes by it.
func TestAJobWithWeatherFollowsItsYear(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	j := job()
	j.Climate = &pb.JobClimate{Site: &pb.SiteClimate{Weather: &pb.SiteClimate_Named{Named: "maritime"}}, FreezingDegreeDays: number(30.0)}
	whole := plan(t, client, j)
	year := whole.GetYear().GetSeason()
	require.NotNil(t, year)
	require.Len(t, whole.GetYear().GetMonths(), 12)
	sum := 0.0
	for i, m := range whole.GetYear().GetMonths() {
		assert.Equal(t, year.GetMonths()[i].GetWaterC(), m.GetWaterTemperatureC())
		sum += m.GetEnergyKwh()
	}
	assert.InEpsilon(t, whole.GetYear().GetEnergyKwhPerYear(), sum, 1e-9)
	// Lights of 30 W for four hours and an air pump of 20 W day and night: 43.8 and 175.2 kWh in 365 days, by hand.
	kwh := map[string]float64{}
	for _, l := range year.GetEnergy().GetLoads() {
		kwh[l.GetName()] = l.GetKwh()
	}
	assert.InDelta(t, 43.8, kwh["lights"], 1e-6)
	assert.InDelta(t, 175.2, kwh["air pump"], 1e-6)
	require.Len(t, whole.GetFiltration().GetCleaning().GetMonths(), 12)
	assert.Equal(t, year.GetMonths()[6].GetWaterC(), whole.GetFiltration().GetCleaning().GetMonths()[6].GetWaterTemperatureC())
	for _, e := range whole.GetCalendar().GetEntries() {
		if e.GetEntry() == "feed_begins" {
			assert.Equal(t, year.GetFeeding().GetFirstDay()[5:], e.GetDay())
		}
	}
	alone := plan(t, client, j, pb.PlanPart_PLAN_PART_CALENDAR)
	assert.True(t, proto.Equal(whole.GetCalendar(), alone.GetCalendar()))

	j.Climate.Site = &pb.SiteClimate{Weather: &pb.SiteClimate_Named{Named: "atlantis"}}
	_, err := client.PlanJob(t.Context(), &pb.PlanJobRequest{Job: j})
	assert.Equal(t, []string{"job.climate.site.named"}, fields(t, err))
}

func TestAVisitOnADayIsJudgedByTheWeather(t *testing.T) {
	_, conn := start(t)
	j := job()
	j.Climate.Site = &pb.SiteClimate{Weather: &pb.SiteClimate_Named{Named: "maritime"}}
	resp, err := pb.NewJobServiceClient(conn).AssessVisit(t.Context(), &pb.AssessVisitRequest{
		Job: j, Level: &pb.VisitLevel{RunningMmPerDay: number(60.0), StoppedMmPerDay: number(40.0), Day: "2027-07-03"},
	})
	require.NoError(t, err)
	assert.Equal(t, pb.LevelVerdict_LEVEL_VERDICT_POND_AND_STREAM_LOSE, resp.GetLevel().GetExplained().GetVerdict())
	assert.Len(t, resp.GetLevel().GetExplained().GetDrops(), 2)
	assert.NotNil(t, finding(resp.GetFindings(), "POND_LOSES_WATER"))
}

// A set of two pumps: both are on the load list, the fall runs by the one that feeds it, and what is not followed is said.
func TestAJobWithTwoPumps(t *testing.T) {
	_, conn := start(t)
	j := job()
	j.Brief.Wishes = &pb.Wishes{TwoPumps: pb.Want_WANT_YES}
	whole := plan(t, pb.NewJobServiceClient(conn), j)
	k := whole.GetKit().GetKit()
	require.NotNil(t, k.GetSecondPump())
	assert.Nil(t, whole.GetStates().GetStates())
	assert.NotNil(t, finding(whole.GetStates().GetFindings(), "TWO_PUMPS_NOT_FOLLOWED"))
	power := 0.0
	for _, l := range whole.GetElectrics().GetLoads() {
		if l.GetName() == "pump" || l.GetName() == "pump of the fall" || l.GetName() == "lamp unit" {
			power += l.GetPowerW()
		}
	}
	// The kit reckons its energy from the same powers, day and night.
	assert.InEpsilon(t, k.GetCost().GetEnergyKwhPerYear(), power*8.766, 0.001)
	visited, err := pb.NewJobServiceClient(conn).AssessVisit(t.Context(), &pb.AssessVisitRequest{
		Job: j, Flow: &pb.VisitFlow{Measurement: &pb.VisitFlow_Bucket{Bucket: &pb.BucketMeasurement{VolumeL: 12, TimeS: 20}}},
	})
	require.NoError(t, err)
	assert.NotNil(t, finding(visited.GetFindings(), "TWO_PUMPS_NOT_FOLLOWED"))
}

// A winter place that the brief tells of is that of the job.
func TestAJobTakesTheWinterOfItsBrief(t *testing.T) {
	_, conn := start(t)
	client := pb.NewJobServiceClient(conn)
	byJob := plan(t, client, job(), pb.PlanPart_PLAN_PART_STATES).GetStates().GetStates().GetWinter()
	j := job()
	j.WinterRoute = nil
	j.Brief.Winter = &pb.WinterRunning{Pump: pb.WinterPump_WINTER_PUMP_MOVED, HoseLengthM: number(3.0)}
	assert.True(t, proto.Equal(byJob.GetSolution(), plan(t, client, j, pb.PlanPart_PLAN_PART_STATES).GetStates().GetStates().GetWinter().GetSolution()))
}
