package service

import (
	"math"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// bags are whole bags with a tenth for waste.
func bags(litres float64) float64 { return math.Ceil(1.1 * litres / mortarBag) }

// kit chooses the kit, or proves the one that was chosen.
func (p *jobPlan) kit() error {
	resp, err := kits{engine: p.engine}.SuggestKits(p.ctx, &pb.SuggestKitsRequest{Brief: p.job.GetBrief(), MaxKits: 1, Workings: p.req.GetWorkings()})
	if err != nil {
		return p.faults.add(err, placing{"brief": "brief", "": "brief"}.at)
	}
	p.take("kit", resp)
	made := &pb.PlannedKit{Suggested: resp}
	if len(resp.GetKits()) > 0 {
		made.Kit = resp.GetKits()[0]
	} else {
		made.Findings = append(made.Findings, p.noKit(resp)...)
	}
	p.made.Kit = made
	if made.GetKit() != nil && made.GetKit().GetSecondPump() == nil {
		return p.curves(made)
	}
	return nil
}

// noKit says that nothing that hangs on the kit can be told.
func (p *jobPlan) noKit(resp *pb.SuggestKitsResponse) []*pb.Finding {
	f := finding.Finding{
		Code: "NO_KIT_WORKS", Severity: finding.Stop, Subject: "kit",
		Sentence: "No set of the catalogues does what the brief asks. What hangs on the kit is not told: states, filter, light, load list and their costs.",
		Change:   "look at the nearest miss and what stops it",
	}
	if c := p.job.GetKit(); c != nil {
		f.Code = "CHOSEN_KIT_FAILS"
		f.Sentence = "The kit that was chosen does not do what the brief asks. What hangs on it is not told: states, filter, light, load list and their costs."
	}
	p.notes.add(f)
	return wire.Findings([]finding.Finding{f})
}

// theKit is the kit of the plan, or nil.
func (p *jobPlan) theKit() (*pb.Kit, error) {
	err := p.need(pb.PlanPart_PLAN_PART_KIT)
	return p.made.GetKit().GetKit(), err
}

// curvePoints is how many points a curve is drawn by.
const curvePoints = 40

// curves are pump and circuit by flow in each state, to draw where they meet.
func (p *jobPlan) curves(made *pb.PlannedKit) error {
	k := made.GetKit()
	curve, err := wire.Curve(k.GetPump().GetItem().GetPump())
	if err != nil {
		return err
	}
	loops, err := wire.KitLoops(p.job, k)
	if err != nil {
		return err
	}
	for _, l := range loops {
		made.Curves = append(made.Curves, stateCurve(l.State, pump.AsMeasured(curve), l.Loop, l.Water))
	}
	return nil
}

func stateCurve(name string, running pump.Pump, loop *circuit.Loop, w water.Properties) *pb.StateCurve {
	made := &pb.StateCurve{State: name}
	first, last := running.Range()
	for i := range curvePoints + 1 {
		q := first + (last-first)*unit.Flow(i)/curvePoints
		if h, ok := running.Head(q); ok {
			made.Pump = append(made.Pump, &pb.HeadAtFlow{FlowLPerH: q.LitresPerHour(), HeadM: h.Metres()})
		}
		made.Circuit = append(made.Circuit, &pb.HeadAtFlow{FlowLPerH: q.LitresPerHour(), HeadM: loop.Demand(q, w).Metres()})
	}
	if q, h, outcome := circuit.Solve(running, loop, w); outcome == circuit.Meets {
		made.Duty = &pb.HeadAtFlow{FlowLPerH: q.LitresPerHour(), HeadM: h.Metres()}
	}
	return made
}

// flowIn is the flow of a kit in a state; 0 where it does not run.
func flowIn(k *pb.Kit, state pb.RunningState) float64 {
	flow := 0.0
	for _, s := range k.GetStates() {
		if s.GetState() == state {
			return s.GetDuty().GetFlowLPerH().GetExpected()
		}
		flow = s.GetDuty().GetFlowLPerH().GetExpected()
	}
	return flow
}

func dutyIn(k *pb.Kit, state pb.RunningState) *pb.Duty {
	for _, s := range k.GetStates() {
		if s.GetState() == state {
			return s.GetDuty()
		}
	}
	return nil
}

// twoPumps says that a set of two pumps is not run in every state.
func twoPumps() finding.Finding {
	return finding.Finding{
		Code: "TWO_PUMPS_NOT_FOLLOWED", Severity: finding.Caution, Subject: "states",
		Sentence: "The kit has two pumps: its own states are told with it, but not what happens when they stop, when it is flushed, in winter or when a hose comes off.",
		Change:   "describe both circuits to CircuitService, and ask for their states", Source: source.Choice,
	}
}
