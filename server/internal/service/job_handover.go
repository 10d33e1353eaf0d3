package service

import (
	"example.com/pondwright/calc/handover"
	"example.com/pondwright/calc/treat"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// volumeUncertainty is how far a drawn volume may be off until it is metered: common practice.
func (p *jobPlan) volumeUncertainty() unit.Ratio {
	const taped = 10.0 // %
	return unit.Percent(taped)
}

// handover is what is measured when the pond runs, and what its owner is told.
func (p *jobPlan) handover() error {
	if err := p.need(pb.PlanPart_PLAN_PART_WATER, pb.PlanPart_PLAN_PART_STATES); err != nil || p.made.Water == nil {
		return err
	}
	t := p.trail()
	k := p.made.GetKit().GetKit()
	volume := unit.Litres(p.made.Water.GetPond().GetNetVolumeL())
	made := &pb.PlannedHandover{
		VolumeL: volume.Litres(), VolumeUkGal: volume.UKGallons(), VolumeUsGal: volume.USGallons(), VolumeUncertaintyPercent: p.volumeUncertainty().Percent(),
		Checks: wire.Checks(handover.Checks(t, p.running(k))), Doses: wire.DoseRows(t, volume, p.volumeUncertainty()),
		WhatIf: wire.WhatIfs(handover.WhatIfs(p.kept(k))), Spares: handover.Spares(p.kept(k)), Switches: handover.Switches(p.kept(k)),
		Findings: wire.Findings(treat.Labels(p.volumeUncertainty())),
	}
	made.Baselines = baselines(made, k, p.made.GetStates())
	p.record("hand-over", t)
	p.made.Handover = made
	return nil
}

// running is what the pond is expected to do when everything is clean.
func (p *jobPlan) running(k *pb.Kit) handover.Running {
	duty := dutyIn(k, pb.RunningState_RUNNING_STATE_CLEAN)
	flow := duty.GetFlowLPerH()
	r := handover.Running{
		Flow: unit.LitresPerHour(flow.GetExpected()), FlowLow: unit.LitresPerHour(flow.GetLow()), FlowHigh: unit.LitresPerHour(flow.GetHigh()),
		Power: unit.Watts(duty.GetPowerW()), StartDrop: unit.Millimetres(p.made.GetStates().GetStartDropMm()),
		StopRise: unit.Millimetres(p.made.GetStates().GetStates().GetStopped().GetLevelRiseMm()), Fall: p.job.GetBrief().GetFall() != nil, Mains: k != nil,
	}
	if f := p.freeboard(); f != nil {
		r.Freeboard = unit.Metres(*f)
	}
	return r
}

// baselines are the numbers the next visit is held against.
func baselines(h *pb.PlannedHandover, k *pb.Kit, s *pb.PlannedStates) []*pb.Baseline {
	const onTheDay = "Measure it on the day; that goes before what is calculated."
	made := []*pb.Baseline{{Name: "volume", Value: &pb.Quantity{Value: h.GetVolumeL(), Unit: "L"}, How: "By the water meter as it is filled."}}
	add := func(name string, value float64, unit, how string) {
		if value != 0 {
			made = append(made, &pb.Baseline{Name: name, Value: &pb.Quantity{Value: value, Unit: unit}, How: how})
		}
	}
	duty := dutyIn(k, pb.RunningState_RUNNING_STATE_CLEAN)
	add("flow, everything clean", duty.GetFlowLPerH().GetExpected(), "L/h", onTheDay)
	add("flow, filter due for cleaning", dutyIn(k, pb.RunningState_RUNNING_STATE_DUE).GetFlowLPerH().GetExpected(), "L/h", "When it comes down to this, clean.")
	add("power of the pump", duty.GetPowerW(), "W", onTheDay)
	add("flow in winter", s.GetStates().GetWinter().GetSolution().GetFlowLPerH(), "L/h", onTheDay)
	add("level when the fall starts", -s.GetStartDropMm(), "mm", onTheDay)
	add("level when the pump stops", s.GetStates().GetStopped().GetLevelRiseMm(), "mm", onTheDay)
	return made
}
