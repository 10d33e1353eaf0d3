package service

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// states runs the kit in every state, with fall and stream.
func (p *jobPlan) states() error {
	k, err := p.theKit()
	if err != nil || k == nil {
		return err
	}
	if err := p.need(pb.PlanPart_PLAN_PART_WATER); err != nil || p.made.Water == nil {
		return err
	}
	made := &pb.PlannedStates{}
	if err := p.fall(made, fallFlow(k, pb.RunningState_RUNNING_STATE_CLEAN)); err != nil {
		return err
	}
	if k.GetSecondPump() != nil {
		made.Findings = append(made.Findings, wire.Findings([]finding.Finding{twoPumps()})...)
		p.made.States = made
		return nil
	}
	var notes wire.Notes
	req := notes.StatesRequest(p.job, k, p.made.Water.GetPond(), made.GetTransitL())
	req.Workings = p.req.GetWorkings()
	resp, err := circuits{engine: p.engine}.CalculateStates(p.ctx, req)
	if err != nil {
		return p.faults.add(err, placing{
			"": "brief.delivery", "winter": "winter_route", "flush": "flush", "flush_s": "flush.flush_s", "pond": "brief.pond", "summer_temperature_c": "brief.water.temperature_c",
		}.at)
	}
	p.take("states", resp)
	made.States = resp
	if surface := p.pumpSurface(); made.GetTransitL() > 0 && surface > 0 {
		made.StartDropMm = new(made.GetTransitL() / surface) // a litre on a square metre is a millimetre
	}
	if wire.WinterRouteOf(p.job) == nil {
		notes.Add(finding.Finding{
			Code: "WINTER_AS_SUMMER", Severity: finding.Note, Subject: "winter",
			Sentence: "No winter place of the pump was given; nothing is said of the flow in winter.",
			Change:   "say how long the hose is then and where it ends", Source: source.Choice,
		})
	}
	made.Findings = append(made.Findings, wire.Findings(notes.Findings)...)
	p.made.States = made
	return nil
}

// pumpSurface is the surface of the water whose level the pump draws down.
func (p *jobPlan) pumpSurface() float64 {
	if p.job.GetBrief().GetPond().SaddleDepthM != nil {
		return p.made.Water.GetPond().GetSurfaceM2()
	}
	return p.made.Water.GetPond().GetBays()[0].GetSurfaceM2()
}

// fall works out sills, stream and the water on its way over them.
func (p *jobPlan) fall(made *pb.PlannedStates, flow float64) error {
	f := p.job.GetBrief().GetFall()
	if f == nil || flow <= 0 {
		return nil
	}
	steps := p.job.GetFallBuild().GetSteps()
	if len(steps) == 0 {
		if f.GetHeightM() == 0 {
			return nil
		}
		steps = []*pb.CascadeStep{{Edge: pb.SillEdge_SILL_EDGE_SQUARE, WidthM: f.GetSillWidthCm() / 100, DropM: f.GetHeightM(), BreadthM: new(usualStone)}}
	}
	cascade, err := falls{engine: p.engine}.CalculateCascade(p.ctx, &pb.CalculateCascadeRequest{FlowLPerH: flow, Steps: steps, Workings: p.req.GetWorkings()})
	if err != nil {
		return p.faults.add(err, placing{"": "fall_build", "steps": "fall_build.steps"}.at)
	}
	p.take("fall", cascade)
	made.Cascade = cascade
	if reaches := p.job.GetFallBuild().GetReaches(); len(reaches) > 0 {
		stream, err := falls{engine: p.engine}.CalculateStream(p.ctx, &pb.CalculateStreamRequest{FlowLPerH: flow, Reaches: reaches, Workings: p.req.GetWorkings()})
		if err != nil {
			return p.faults.add(err, placing{"": "fall_build", "reaches": "fall_build.reaches"}.at)
		}
		p.take("stream", stream)
		made.Stream, made.TransitL = stream, stream.GetHeldL()
	}
	for i, u := range p.job.GetFallBuild().GetUpper() {
		rise, how := riseOf(u, i, cascade.GetLandings())
		made.TransitL += u.GetAreaM2() * rise
		made.Findings = append(made.Findings, wire.Findings([]finding.Finding{{
			Code: "STANDS_HIGHER", Severity: finding.Note, Subject: u.GetName(),
			Sentence: fmt.Sprintf("While the fall runs this water stands %.0f mm higher%s, and holds %.0f L more.", rise, how, u.GetAreaM2()*rise),
			Value:    finding.Of(rise, "mm"), Source: source.Balance,
		}})...)
	}
	return nil
}

// riseOf is how much higher upper water stands: as told, or by the head over its sill, the top one where there are fewer sills.
func riseOf(u *pb.UpperWater, i int, landings []*pb.StepLanding) (mm float64, how string) {
	if u.RiseMm != nil {
		return u.GetRiseMm(), ""
	}
	if i >= len(landings) {
		i = 0
	}
	return landings[i].GetHeadMm(), ", by the head over its sill"
}

// usualStone is how far a spill stone reaches along the flow where nothing is said of it: common practice.
const usualStone = 0.3 // m

// fallFlow is what runs over the fall: of the second pump where it has the fall to itself.
func fallFlow(k *pb.Kit, state pb.RunningState) float64 {
	second := k.GetSecondPump()
	if second.GetArrangement() != pb.TwoPumps_TWO_PUMPS_FILTER_AND_FALL {
		return flowIn(k, state)
	}
	return flowIn(&pb.Kit{States: second.GetStates()}, state)
}
