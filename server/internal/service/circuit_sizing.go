package service

import (
	"context"

	"example.com/pondwright/calc/circuit/calibrate"
	"example.com/pondwright/calc/circuit/sizing"
	"example.com/pondwright/calc/finding"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s circuits) SizeHose(ctx context.Context, req *pb.SizeHoseRequest) (*pb.SizeHoseResponse, error) {
	t := trail(req.GetWorkings())
	wish, found, err := wire.FlowWish(t, req.GetCircuit(), req.GetWish(), stopper(ctx))
	if err != nil {
		return nil, refused(err, "")
	}
	offers, err := wire.HoseOffers(req.GetOffers())
	if err != nil {
		return nil, refused(err, "")
	}
	var chosen *sizing.Trial
	var trials []sizing.Trial
	var remarks []finding.Finding
	if e := req.GetEconomy(); e != nil {
		chosen, trials, remarks, err = sizing.LeastCost(t, wish, req.GetHoses(), offers, wire.Economy(e))
	} else {
		chosen, trials, remarks, err = sizing.LeastBore(wish, req.GetHoses(), offers)
	}
	if err != nil {
		return nil, refused(err, "")
	}
	if err := gone(ctx); err != nil {
		return nil, err
	}
	resp := &pb.SizeHoseResponse{
		Trials: wire.HoseTrials(trials, offers, req.GetEconomy() != nil), Findings: wire.Findings(append(found, remarks...)), Workings: wire.Workings(t),
	}
	if chosen != nil {
		resp.Chosen = offers[chosen.Offer].Name
	}
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

func (s circuits) AdjustFlow(ctx context.Context, req *pb.AdjustFlowRequest) (*pb.AdjustFlowResponse, error) {
	t := trail(req.GetWorkings())
	wish, found, err := wire.FlowWish(t, req.GetCircuit(), req.GetWish(), stopper(ctx))
	if err != nil {
		return nil, refused(err, "")
	}
	resp := &pb.AdjustFlowResponse{}
	var remarks []finding.Finding
	switch means := req.GetMeans().(type) {
	case *pb.AdjustFlowRequest_Throttle:
		var setting *sizing.Setting
		if setting, remarks, err = sizing.Throttle(t, wish, means.Throttle); setting != nil {
			resp.FlowLPerH = wire.Given(setting.Flow.LitresPerHour())
			resp.Settings = []*pb.ValveSetting{wire.ValveSetting(*setting)}
		}
	case *pb.AdjustFlowRequest_Slow:
		var slowed *sizing.Slowed
		if slowed, remarks, err = sizing.Slow(wish); slowed != nil {
			resp.FlowLPerH, resp.Speed = wire.Given(wish.Flow.LitresPerHour()), wire.Given(slowed.Speed.Float())
			resp.PowerW = wire.Given(slowed.Power.Watts())
		}
	case *pb.AdjustFlowRequest_Split:
		var divided *sizing.Divided
		divided, remarks, err = sizing.Split(t, wish.Circuit, wish.At, means.Split.GetFork(), wire.FlowShares(means.Split.GetShares()))
		if divided != nil {
			resp.FlowLPerH = wire.Given(divided.Flow.LitresPerHour())
			for _, setting := range divided.Settings {
				resp.Settings = append(resp.Settings, wire.ValveSetting(setting))
			}
		}
	}
	if err != nil {
		return nil, refused(err, "")
	}
	if err := gone(ctx); err != nil {
		return nil, err
	}
	resp.Findings, resp.Workings = wire.Findings(append(found, remarks...)), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

func (s circuits) CalibrateCircuit(ctx context.Context, req *pb.CalibrateCircuitRequest) (*pb.CalibrateCircuitResponse, error) {
	t := trail(req.GetWorkings())
	question, found, err := wire.CalibrateQuestion(t, req, stopper(ctx))
	if err != nil {
		return nil, refused(err, "")
	}
	fit, remarks, err := calibrate.Explain(t, question)
	if err != nil {
		return nil, refused(err, "")
	}
	resp := &pb.CalibrateCircuitResponse{
		MeasuredLPerH: question.Measured.Flow.LitresPerHour(), MeasuredUnsureLPerH: question.Measured.Unsure.LitresPerHour(),
	}
	if fit != nil {
		wire.Fit(resp, *fit)
	}
	if err := gone(ctx); err != nil {
		return nil, err
	}
	found = append(found, remarks...)
	resp.Findings, resp.Workings = wire.Findings(found), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}
