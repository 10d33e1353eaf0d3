package service

import (
	"cmp"
	"context"
	"math"
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/source"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// defaultSubstitutes is how many are sent where nobody says, and lostSubstitutes how many that will not do are told of where
// none will.
const (
	defaultSubstitutes = 3
	lostSubstitutes    = 5
)

func (s kits) SuggestSubstitutes(ctx context.Context, req *pb.SuggestSubstitutesRequest) (*pb.SuggestSubstitutesResponse, error) {
	snapshot := s.engine.Store.Snapshot()
	c, err := newCounter(snapshot, req, orEmpty(req.GetSet()), false)
	if err != nil {
		return nil, err
	}
	c.pictures = req.GetPictures()
	k := wire.KitKind(req.GetOut())
	switch {
	case c.set.pumps == kit.Apart:
		return nil, refused(input.Error{
			Field: "set.second_pump.fall", Problem: "two pumps apart have two ways", Change: "ask for each side as a set of one pump",
		}, "")
	case c.set.Of(k) < 0:
		return nil, refused(input.Error{Field: "out", Problem: "the set has no " + k.String(), Change: "name the kind of an item of the set"}, "")
	}
	candidate, err := c.desk.Judge(c.set.Set, c.set.pumps, c.set.fall)
	if err != nil {
		return nil, err
	}
	resp := &pb.SuggestSubstitutesResponse{Brief: c.brief}
	if resp.Kit, _, err = c.kit(candidate, "kit"); err != nil {
		return nil, err
	}
	notes, err := c.substitutes(ctx, resp, candidate, k, int(req.GetMaxSubstitutes()))
	if err != nil {
		return nil, searched(ctx, err)
	}
	resp.Findings = c.findings(notes...)
	resp.Provenance, err = s.engine.provenance(req, snapshot)
	return resp, err
}

// substitutes fills in what may stand in for one item, or what comes closest to it.
func (c *counter) substitutes(
	ctx context.Context, resp *pb.SuggestSubstitutesResponse, candidate kit.Candidate, k kit.Kind, most int,
) ([]finding.Finding, error) {
	if most == 0 {
		most = defaultSubstitutes
	}
	found, err := c.desk.Substitutes(candidate, k, most, stopper(ctx))
	if err != nil {
		return nil, err
	}
	for _, sub := range found {
		made, _, err := c.kit(sub.Candidate, "substitute")
		if err != nil {
			return nil, err
		}
		resp.Substitutes = append(resp.Substitutes, &pb.Substitute{
			Item: c.stall.at(k, sub.Of(k)), Kit: made, Differences: differences(resp.GetKit(), made),
		})
	}
	if len(found) > 0 {
		return nil, nil
	}
	lost, err := c.desk.LosersOf(candidate, k, lostSubstitutes, stopper(ctx))
	if err != nil {
		return nil, err
	}
	resp.Losers, err = c.losers(lost)
	return []finding.Finding{{
		Code: "NO_SUBSTITUTE", Severity: finding.Stop, Subject: k.String(), Source: source.Definition,
		Sentence: "No other " + k.String() + " of the catalogues keeps the set working with all else as it is.",
		Change:   "ask CheckKit for the smallest change, or SuggestKits for another set",
	}}, err
}

// differences are the figures of two sets that are not the same, those first that change most by what they were.
func differences(before, after *pb.Kit) []*pb.Difference {
	a, b := compared(before), compared(after)
	var changed []*pb.Difference
	for i := range a {
		if x, y := a[i].quantity, b[i].quantity; (x == nil) != (y == nil) || x.GetValue() != y.GetValue() {
			changed = append(changed, &pb.Difference{Figure: a[i].name, Before: x, After: y})
		}
	}
	slices.SortStableFunc(changed, func(a, b *pb.Difference) int { return cmp.Compare(far(b), far(a)) })
	return changed
}

func far(d *pb.Difference) float64 {
	if d.GetBefore().GetValue() == 0 || d.GetAfter() == nil {
		return math.Inf(1)
	}
	return math.Abs(d.GetAfter().GetValue()/d.GetBefore().GetValue() - 1)
}

// A figure is one that substitutes are compared by; nil where it is not known.
type figure struct {
	name     string
	quantity *pb.Quantity
}

func compared(k *pb.Kit) []figure {
	known := func(v *float64, unit string) *pb.Quantity {
		if v == nil {
			return nil
		}
		return &pb.Quantity{Value: *v, Unit: unit}
	}
	pump, hose, cost := k.GetPump().GetItem().GetPump(), k.GetHose().GetItem().GetHose(), k.GetCost()
	return []figure{
		{"flow with the filter clean", stateFlow(k, pb.RunningState_RUNNING_STATE_CLEAN)},
		{"flow with the filter due for cleaning", stateFlow(k, pb.RunningState_RUNNING_STATE_DUE)},
		{"power", powerOf(k)},
		{"price to buy", known(&cost.Price, cost.GetCurrency())},
		{"cost of a year", yearlyCost(cost)},
		{"headroom", known(&k.HeadroomPercent, "%")},
		{"outlet bore of the pump", known(pump.OutletBoreMm, "mm")},
		{"bore of the hose", known(&hose.BoreMm, "mm")},
		{"bore of the hose tail", known(hose.TailBoreMm, "mm")},
	}
}

func stateFlow(k *pb.Kit, state pb.RunningState) *pb.Quantity {
	for _, s := range k.GetStates() {
		if s.GetState() == state && s.GetDuty() != nil {
			return &pb.Quantity{Value: s.GetDuty().GetFlowLPerH().GetExpected(), Unit: "L/h"}
		}
	}
	return nil
}

// powerOf is that of pump and lamp unit, with the filter clean.
func powerOf(k *pb.Kit) *pb.Quantity {
	duty := k.GetStates()[0].GetDuty()
	if duty == nil || duty.PowerW == nil {
		return nil
	}
	return &pb.Quantity{Value: duty.GetPowerW() + k.GetLampUnit().GetItem().GetLampUnit().GetPowerW(), Unit: "W"}
}

func yearlyCost(c *pb.KitCost) *pb.Quantity {
	if c.GetEnergyCostPerYear() == 0 {
		return nil
	}
	return &pb.Quantity{Value: c.GetEnergyCostPerYear() + c.GetLampCostPerYear(), Unit: c.GetCurrency()}
}
