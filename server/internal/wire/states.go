package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/circuit/states"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A StatesQuestion is a circuit to be calculated in all its states, and what was assumed for it.
type StatesQuestion struct {
	states.Description
	Findings []finding.Finding
}

func (q *StatesQuestion) note(found ...finding.Finding) { q.Findings = append(q.Findings, found...) }

// StatesDescription reads a circuit with the pond it stands in. Errors carry field paths from the request on.
func StatesDescription(t *working.Trail, req *pb.CalculateStatesRequest, stop func() bool) (*StatesQuestion, error) {
	var errs input.Errors
	q := &StatesQuestion{}
	q.Stop = stop
	var err error
	if q.Circuit, q.Findings, err = Circuit(req.GetCircuit()); err != nil && !errs.AddUnder("circuit", err) {
		return nil, err
	}
	if q.Winter, err = q.change(req.GetWinter()); err != nil && !errs.AddUnder("winter", err) {
		return nil, err
	}
	if q.Flush, err = q.change(req.GetFlush()); err != nil && !errs.AddUnder("flush", err) {
		return nil, err
	}
	if q.Pond, err = statesPond(t, req.GetPond()); err != nil && !errs.AddUnder("pond", err) {
		return nil, err
	}
	q.FlushFor, q.Transit = unit.Seconds(req.GetFlushS()), unit.Litres(req.GetTransitL())
	summer := assumed(q, Celsius(req.SummerTemperatureC), assume.SummerTemperature,
		assume.Note("water", "The temperature of the water in summer", assume.SummerTemperature.Celsius(), "°C", "give it, if it matters"))
	winter := assumed(q, Celsius(req.WinterTemperatureC), assume.WinterTemperature,
		assume.Note("water", "The temperature of the water in winter", assume.WinterTemperature.Celsius(), "°C", "give it, if it matters"))
	t.About("water in summer")
	q.Summer = water.At(t, summer)
	t.About("water in winter")
	q.Cold = water.At(t, winter)
	return q, errs.Err()
}

// change reads what is different in a state.
func (q *StatesQuestion) change(c *pb.CircuitChange) (*states.Change, error) {
	if c == nil {
		return nil, nil
	}
	var errs input.Errors
	made := &states.Change{Speed: unit.Ratio(c.GetSpeed())}
	intake, found, err := circuitBranch(c.GetIntake(), drawsIn)
	if made.Intake = intake; err != nil && !errs.AddUnder("intake", err) {
		return nil, err
	}
	q.note(found...)
	delivery, found, err := circuitBranch(c.GetDelivery(), givesOut)
	if made.Delivery = delivery; err != nil && !errs.AddUnder("delivery", err) {
		return nil, err
	}
	q.note(found...)
	return made, errs.Err()
}

func statesPond(t *working.Trail, p *pb.StatesPond) (states.Pond, error) {
	made := states.Pond{Surface: unit.SquareMetres(p.GetSurfaceM2()), Freeboard: unit.Metres(p.GetFreeboardM())}
	if p.GetOutline() == nil {
		return made, nil
	}
	t.About("pond")
	_, m, err := MeasureBay(t, p.GetOutline())
	if err != nil {
		var errs input.Errors
		if errs.AddUnder("outline", err) {
			return states.Pond{}, errs
		}
		return states.Pond{}, err
	}
	made.Surface, made.Levels = m.Area, m.Levels()
	return made, nil
}
