package wire

import (
	"fmt"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/circuit/calibrate"
	"example.com/pondwright/calc/circuit/sizing"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// CircuitConditions are what a circuit runs in, and what was assumed of it.
func CircuitConditions(t *working.Trail, said *float64, due bool, stop func() bool) (tree.Conditions, []finding.Finding) {
	temperature, found := assume.Value(Celsius(said), assume.CircuitTemperature,
		assume.Note("water", "The temperature of the water", assume.CircuitTemperature.Celsius(), "°C", "give it, if it matters"))
	t.About("circuit")
	return tree.Conditions{Water: water.At(t, temperature), Due: due, Subject: "circuit", Stop: stop}, found
}

// FlowWish reads a flow wanted of a circuit. Errors carry field paths from the request on.
func FlowWish(t *working.Trail, c *pb.Circuit, w *pb.FlowWish, stop func() bool) (sizing.Wish, []finding.Finding, error) {
	described, found, err := Circuit(c)
	if err != nil {
		return sizing.Wish{}, nil, prefixed("circuit", err)
	}
	at, warm := CircuitConditions(t, w.WaterTemperatureC, w.GetDue(), stop)
	found = append(found, warm...)
	return sizing.Wish{Circuit: described, At: at, Branch: w.GetBranch(), Flow: unit.LitresPerHour(w.GetFlowLPerH())}, found, nil
}

// prefixed puts a path before the fields of an error of calc; any other error passes.
func prefixed(path string, err error) error {
	if err == nil {
		return nil
	}
	var errs input.Errors
	if errs.AddUnder(path, err) {
		return errs
	}
	return err
}

// HoseOffers reads hoses that can be had. Errors name offers[i].pipe_size.
func HoseOffers(offers []*pb.HoseOffer) ([]sizing.Offer, error) {
	var errs input.Errors
	made := make([]sizing.Offer, len(offers))
	for i, o := range offers {
		spec := pipe.Spec{Bore: unit.Millimetres(o.GetBoreMm()), Wall: Wall(o.GetWall())}
		if spec.Wall == 0 {
			spec.Wall = pipe.Smooth
		}
		if id := o.GetPipeSize(); id != "" {
			size, ok := pipe.SizeByID(id)
			if !ok {
				errs.Add(fmt.Sprintf("offers[%d].pipe_size", i), "take one that ListPipeSizes names", "there is no size %q", id)
			}
			spec = size.Spec(0)
		}
		spec.TailBore = unit.Millimetres(o.GetTailBoreMm())
		made[i] = sizing.Offer{Name: o.GetName(), Hose: spec, Price: o.GetPricePerM()}
	}
	return made, errs.Err()
}

// Economy reads what money is asked about.
func Economy(e *pb.HoseEconomy) sizing.Economy {
	return sizing.Economy{Years: e.GetYears(), HoursPerDay: e.GetHoursPerDay(), PerKWh: e.GetEnergyPricePerKwh(), Slowed: e.GetSlowed()}
}

// HoseTrials turns trials into messages; costs are given where money was asked about and they are
// known.
func HoseTrials(trials []sizing.Trial, offers []sizing.Offer, money bool) []*pb.HoseTrial {
	made := make([]*pb.HoseTrial, len(trials))
	for i, tr := range trials {
		made[i] = &pb.HoseTrial{
			Offer: offers[tr.Offer].Name, FlowLPerH: given(tr.Flow.LitresPerHour()), Speed: given(tr.Speed.Float()),
			PowerW: given(tr.Power.Watts()), VelocityMPerS: given(tr.Velocity.MetresPerSecond()),
		}
		if money && tr.Cost.Known() {
			made[i].HoseCost, made[i].EnergyCost, made[i].TotalCost = &tr.Cost.Hose, &tr.Cost.Energy, &tr.Cost.Total
		}
	}
	return made
}

// FlowShares reads what the branches of a fork are to get.
func FlowShares(shares []*pb.FlowShare) []sizing.Share {
	made := make([]sizing.Share, len(shares))
	for i, s := range shares {
		made[i] = sizing.Share{Branch: s.GetBranch(), Part: unit.Percent(s.GetSharePercent()), Bore: unit.Millimetres(s.GetBoreMm())}
	}
	return made
}

// ValveSetting turns a setting into a message.
func ValveSetting(s sizing.Setting) *pb.ValveSetting {
	return &pb.ValveSetting{
		Valve: s.Valve, Branch: s.Branch, FlowLPerH: s.Flow.LitresPerHour(), HeadM: s.Head.Metres(), LossCoefficient: s.K,
		KvM3PerH: given(s.Kv.CubicMetresPerHour()),
	}
}

// MeasuredFlow reads a measurement. Errors name bucket or drop and the field below it.
func MeasuredFlow(t *working.Trail, req *pb.CalibrateCircuitRequest) (calibrate.Measured, error) {
	t.About("measurement")
	if b := req.GetBucket(); b != nil {
		m, err := calibrate.Bucket{
			Volume: unit.Litres(b.GetVolumeL()), VolumeUnsure: unit.Litres(b.GetVolumeUnsureL()),
			Time: unit.Seconds(b.GetTimeS()), TimeUnsure: unit.Seconds(b.GetTimeUnsureS()),
		}.Flow(t)
		return m, prefixed("bucket", err)
	}
	d := req.GetDrop()
	m, err := calibrate.Drop{
		Fall: unit.Millimetres(d.GetFallMm()), FallUnsure: unit.Millimetres(d.GetFallUnsureMm()),
		Area: unit.SquareMetres(d.GetAreaM2()), AreaUnsure: unit.SquareMetres(d.GetAreaUnsureM2()),
		Time: unit.Seconds(d.GetTimeS()), TimeUnsure: unit.Seconds(d.GetTimeUnsureS()),
	}.Flow(t)
	return m, prefixed("drop", err)
}

// CalibrateQuestion reads a circuit with a flow measured in it, and what was assumed. Errors carry field paths from the
// request on.
func CalibrateQuestion(t *working.Trail, req *pb.CalibrateCircuitRequest, stop func() bool) (calibrate.Question, []finding.Finding, error) {
	var errs input.Errors
	described, found, err := Circuit(req.GetCircuit())
	if err != nil && !errs.AddUnder("circuit", err) {
		return calibrate.Question{}, nil, err
	}
	measured, err := MeasuredFlow(t, req)
	if err != nil && !errs.AddUnder("", err) {
		return calibrate.Question{}, nil, err
	}
	MeasuredNames(&errs, described, req.GetMeasured())
	if err := errs.Err(); err != nil {
		return calibrate.Question{}, nil, err
	}
	at, warm := CircuitConditions(t, req.WaterTemperatureC, false, stop)
	found = append(found, warm...)
	q := calibrate.Question{
		Circuit: described, At: at, Tolerance: pump.Usual(), Sure: Sureness(req.GetMeasured()), Branch: req.GetBranch(), Measured: measured,
	}
	if req.PowerW != nil {
		q.Reading = &calibrate.Reading{Power: unit.Watts(req.GetPowerW()), Unsure: unit.Watts(req.GetPowerUnsureW())}
	}
	return q, found, nil
}

// MeasuredNames refuses what is said of a part or a branch that a circuit does not have.
func MeasuredNames(errs *input.Errors, c tree.Circuit, measured []*pb.MeasuredInput) {
	n, err := tree.New(c)
	if err != nil {
		return // refused elsewhere
	}
	for i, m := range measured {
		if !n.Has(m.GetName()) {
			errs.Add(fmt.Sprintf("measured[%d].name", i), "name a part or a branch of the circuit", "there is no %q", m.GetName())
		}
	}
}

// Fit writes what explains a measured flow into its answer.
func Fit(resp *pb.CalibrateCircuitResponse, f calibrate.Fit) {
	resp.CalculatedLPerH = flowBand(f.Calculated)
	resp.ExtraHeadM = &pb.Band{Low: f.Extra.Low.Metres(), Expected: f.Extra.Expected.Metres(), High: f.Extra.High.Metres()}
	resp.DueHeadM = f.Due.Metres()
}
