package service

import (
	"fmt"
	"strings"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/level"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// hoseOff finds a hose that comes off among events.
func hoseOff(events []*pb.LevelEvent) *pb.HoseOffEvent {
	for _, e := range events {
		if off := e.GetHoseOff(); off != nil {
			return off
		}
	}
	return nil
}

// budgetEvents answers for all other events, which are over at once.
func budgetEvents(t *working.Trail, bays []level.Bay, events []*pb.LevelEvent) ([]*pb.BayLevel, []finding.Finding, error) {
	event, err := wire.LevelEvent(t, bays, events)
	if err != nil {
		return nil, nil, err
	}
	levels, found, err := level.After(t, bays, event)
	return wire.BayLevels(levels), found, err
}

// ofBay puts the number of a bay in the errors of one that was asked about alone.
func ofBay(err error, i int) error {
	var errs input.Errors
	if !errs.AddUnder("", err) {
		return err
	}
	for j := range errs {
		if rest, ok := strings.CutPrefix(errs[j].Field, "bays[0]"); ok {
			errs[j].Field = fmt.Sprintf("bays[%d]%s", i, rest)
		}
	}
	return errs
}

// budgetHoseOff answers for a hose that comes off, which is no event of its own moment: it goes on until the pump draws air.
func budgetHoseOff(resp *pb.BudgetLevelsResponse, req *pb.BudgetLevelsRequest, bays []level.Bay, off *pb.HoseOffEvent, t *working.Trail) ([]finding.Finding, error) {
	if len(req.GetEvents()) > 1 {
		return nil, input.Error{Field: "events", Problem: "a hose that comes off stands beside other events", Change: "ask for it alone"}
	}
	if int(off.GetBay()) > len(bays) {
		return nil, input.Error{Field: "events[0].hose_off.bay", Problem: "there is no such bay", Change: "give the number of a bay, from 1"}
	}
	loss, found, err := level.HoseOff(t, bays[off.GetBay()-1], unit.LitresPerHour(off.GetFlowLPerH()))
	if err != nil {
		return nil, ofBay(err, int(off.GetBay())-1)
	}
	resp.HoseOff = wire.HoseOffLoss(loss)
	return found, nil
}
